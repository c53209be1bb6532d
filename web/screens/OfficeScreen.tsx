import { For, lazy, Show, Suspense } from 'solid-js'
import type { Kind } from '../../api/domain/entry/registry.ts'
import type { LoadFigures } from '../../api/domain/job/figures.ts'
import type { Fact, HistoryLine, LoadView, Ticket } from '../../api/domain/job/view.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import { type Ratio, showNumber } from '../../api/domain/units.ts'
import { JobTools } from '../parts/JobTools.tsx'
import { OverJob } from '../parts/OverJob.tsx'
import { ScreenHead } from '../parts/ScreenHead.tsx'
import { gapText, MISSING, toleranceNotes, waterLines } from '../state/finding-text.ts'
import { createJobHere, JobContext, type JobHere } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import {
  kindWord,
  showLimit,
  showSlump,
  showText,
  showTime,
  showUnit,
  showValue,
  showWater,
} from '../state/show.ts'

const JobSections = lazy(async () => ({ default: (await import('../parts/pour.ts')).JobSections }))

/** The same jobs for a desk: a table a job, a column a load, as live as the phone's. */
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
  const phone = usePhone()
  const { t } = phone
  const job = createJobHere(phone, props.job)
  const { view, figures } = job
  const columns = () =>
    view().loads.flatMap((load, i) => {
      const computed = figures().loads[i]
      return computed ? [officeColumn(t, job, load, computed)] : []
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
    <JobContext.Provider value={job}>
      <section class="card">
        <h2>
          <a href={`/job/${props.job}`}>{view().name[0]?.value ?? t('jobWithoutName')}</a>
        </h2>
        <p>{yards()}</p>
        <Show when={columns().length > 0} fallback={<p>{t('noLoads')}</p>}>
          <div class="table-box">
            <table>
              <thead>
                <tr>
                  <th scope="col">{t('load')}</th>
                  {/* What scrolls sideways needs something in it that the keyboard reaches. */}
                  <For each={columns()}>
                    {(column) => (
                      <th scope="col">
                        <a class="row-link" href={`/job/${props.job}`}>
                          {column[0]}
                        </a>
                      </th>
                    )}
                  </For>
                </tr>
              </thead>
              <tbody>
                <For each={officeHeads(t)}>
                  {(head, i) => (
                    <tr>
                      <th scope="row">{head}</th>
                      <For each={columns()}>{(column) => <td>{column[i() + 1]}</td>}</For>
                    </tr>
                  )}
                </For>
              </tbody>
            </table>
          </div>
        </Show>
        <div class="office-sections">
          <Suspense>
            <JobSections />
          </Suspense>
        </div>
        <JobTools job={props.job} onSlip={() => job.setOver({ is: 'slip' })} />
      </section>
      <OverJob />
    </JobContext.Provider>
  )
}

/** What each row of the table is of. */
const officeHeads = (t: Words): string[] => [
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
  t('tests'),
  t('decision'),
  t('whereItWent'),
  t('signing'),
  t('laterOn'),
  t('missingHead'),
]

/** Kinds that share a row, in the order of its heads. */
const SHARED: readonly (readonly Kind[])[] = [
  ['air.measured', 'temperature.measured', 'flow.measured', 'density.measured', 'cylinders.made'],
  ['crew.ready', 'load.accepted', 'load.rejected', 'admixture.added'],
  ['load.placed', 'concrete.left'],
  ['ticket.signed', 'limit.waived'],
  ['strength.reported'],
]

/** The load's number, then a cell for each row. */
const officeColumn = (t: Words, job: JobHere, load: LoadView, figures: LoadFigures): string[] => {
  const notes = (hash: string) =>
    toleranceNotes(t, figures, hash)
      .map((note) => ` · ${note}`)
      .join('')
  const said = (kinds: readonly Kind[]): string => {
    const lines = job.standing(kinds, load.id)
    const text = (line: HistoryLine) =>
      `${kindWord(t, line.kind)} ${showValue(t, line.entry, job.names(t))}${notes(line.hash)}`
    return lines.length > 0 ? lines.map(text).join('\n') : t('notRecorded')
  }
  const gaps = figures.missing.map((key) => t(MISSING[key]))
  const open = job
    .figures()
    .gaps.filter((gap) => gap.load === load.id)
    .map((gap) => gapText(t, gap, job.names(t)))
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
    [
      ticket((is) => showLimit(t, is.limit)),
      ...figures.limit.checks.map(({ verdict, minutes }) =>
        t(verdict === 'inside' ? 'insideAt' : 'outsideAt', { minutes }),
      ),
    ].join('\n'),
    [
      // Additions go together; they are not answers that differ.
      all(t, load.water, ({ amount }) => showWater(t, amount), ' + '),
      ...(load.water.length > 0 ? waterLines(t, figures) : []),
    ].join('\n'),
    load.slump.length > 0
      ? load.slump.map((one) => `${showSlump(t, one.value)}${notes(one.hash)}`).join('\n')
      : t('notRecorded'),
    ...SHARED.map(said),
    [gaps.join(', '), ...open].filter((text) => text !== '').join('\n'),
  ]
}

const all = <T,>(t: Words, fact: Fact<T>, show: (value: T) => string, between = ' / '): string =>
  fact.length > 0 ? fact.map((said) => show(said.value)).join(between) : t('notRecorded')
