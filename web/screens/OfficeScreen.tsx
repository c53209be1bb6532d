import { createMemo, createSignal, For, Show } from 'solid-js'
import { jobFigures, type LoadFigures } from '../../api/domain/job/figures.ts'
import type { Fact, LoadView, Ticket } from '../../api/domain/job/view.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import { type Ratio, showNumber } from '../../api/domain/units.ts'
import { JobTools } from '../parts/JobTools.tsx'
import { MISSING } from '../parts/LoadCard.tsx'
import { ScreenHead } from '../parts/ScreenHead.tsx'
import { SlipSheet } from '../parts/SlipSheet.tsx'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { showLimit, showSlump, showText, showTime, showUnit, showWater } from '../state/show.ts'

/** The same jobs for a desk: a table a job, a row a load, as live as the phone's. */
export const OfficeScreen = () => {
  const { t, jobs } = usePhone()
  return (
    <main class="office">
      <ScreenHead title={t('officeDesk')} />
      <Show when={jobs.jobs().length > 0} fallback={<p>{t('noJobs')}</p>}>
        <For each={jobs.jobs()}>{(job) => <OfficeJob job={job} />}</For>
      </Show>
    </main>
  )
}

const OfficeJob = (props: { job: string }) => {
  const { t, jobs } = usePhone()
  const view = createMemo(() => jobs.view(props.job))
  const figures = createMemo(() => jobFigures(view()))
  const [slip, setSlip] = createSignal(false)
  const rows = () =>
    view().loads.flatMap((load, i) => {
      const computed = figures().loads[i]
      return computed ? [officeRow(t, load, computed)] : []
    })
  const yards = () => {
    const { orderedYards, ticketedYards, difference, loadsWithoutYards } = figures()
    const withUnit = (number: Ratio | undefined) =>
      number ? `${showNumber(number)} ${showUnit(t, 'yd3')}` : t('notRecorded')
    return t('officeYards', {
      ordered: withUnit(orderedYards),
      ticketed: withUnit(view().loads.length > loadsWithoutYards ? ticketedYards : undefined),
      difference: withUnit(difference),
    })
  }
  return (
    <section class="card">
      <h2>
        <a href={`/job/${props.job}`}>{view().name[0]?.value ?? t('jobWithoutName')}</a>
      </h2>
      <p>{yards()}</p>
      <div class="table-box">
        <table>
          <thead>
            <tr>
              <For each={officeHeads(t)}>{(head) => <th scope="col">{head}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <For each={rows()}>
              {(row) => (
                <tr>
                  <For each={row}>{(cell) => <td>{cell}</td>}</For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <JobTools job={props.job} onSlip={() => setSlip(true)} />
      <Show when={slip()}>
        <SlipSheet job={props.job} onClose={() => setSlip(false)} />
      </Show>
    </section>
  )
}

const officeHeads = (t: Words): string[] => [
  t('load'),
  t('ticketNumber'),
  t('truck'),
  `${t('yards')} (${showUnit(t, 'yd3')})`,
  t('batched'),
  t('arrived'),
  t('dischargeStarted'),
  t('dischargeEnded'),
  t('truckLeft'),
  t('batchingToStart'),
  t('batchingToEnd'),
  t('onSite'),
  t('limit'),
  t('water'),
  t('slump'),
  t('missingHead'),
]

const officeRow = (t: Words, load: LoadView, figures: LoadFigures): string[] => {
  const ticket = (show: (ticket: Ticket) => string) => all(t, load.ticket, show)
  const time = (fact: Fact<LocalTime>) => all(t, fact, (at) => showTime(at))
  const minutes = (list: readonly number[]) =>
    list.length > 0 ? list.map((n) => `${n} ${t('unitMin')}`).join(' / ') : t('notRecorded')
  return [
    String(load.ordinal),
    ticket((is) => showText(t, is.number)),
    ticket((is) => showText(t, is.truck)),
    ticket((is) => showText(t, is.yards)),
    ticket((is) => (is.batchedAt.is === 'given' ? showTime(is.batchedAt.at) : t('notOnTicket'))),
    time(load.arrived),
    time(load.started),
    time(load.ended),
    time(load.left),
    minutes(figures.batchToStart.minutes),
    minutes(figures.batchToEnd.minutes),
    minutes(figures.onSite.minutes),
    ticket((is) => showLimit(t, is.limit)),
    all(t, load.water, ({ amount }) => showWater(t, amount)),
    all(t, load.slump, (is) => showSlump(t, is)),
    figures.missing.map((key) => t(MISSING[key])).join(', '),
  ]
}

const all = <T,>(t: Words, fact: Fact<T>, show: (value: T) => string): string =>
  fact.length > 0 ? fact.map((said) => show(said.value)).join(' / ') : t('notRecorded')
