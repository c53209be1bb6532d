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
  const phone = usePhone()
  const { t } = phone
  const job = createJobHere(phone, props.job)
  const { view, figures } = job
  const rows = () =>
    view().loads.flatMap((load, i) => {
      const computed = figures().loads[i]
      return computed ? [officeRow(t, job, load, computed)] : []
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
        <Show when={rows().length > 0} fallback={<p>{t('noLoads')}</p>}>
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
                      {/* What scrolls sideways needs something in it that the keyboard reaches. */}
                      <th scope="row">
                        <a class="row-link" href={`/job/${props.job}`}>
                          {row[0]}
                        </a>
                      </th>
                      <For each={row.slice(1)}>
                        {(cell) => <td classList={{ wordy: cell.length > WORDY }}>{cell}</td>}
                      </For>
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

/** Cells of more characters than this get a wider column. */
const WORDY = 40

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
  t('tests'),
  t('decision'),
  t('whereItWent'),
  t('signing'),
  t('laterOn'),
  t('missingHead'),
]

/** Kinds that share a column, in the order of its heads. */
const COLUMNS: readonly (readonly Kind[])[] = [
  ['air.measured', 'temperature.measured', 'flow.measured', 'density.measured', 'cylinders.made'],
  ['crew.ready', 'load.accepted', 'load.rejected', 'admixture.added'],
  ['load.placed', 'concrete.left'],
  ['ticket.signed', 'limit.waived'],
  ['strength.reported'],
]

const officeRow = (t: Words, job: JobHere, load: LoadView, figures: LoadFigures): string[] => {
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
    ticket((is) => showLimit(t, is.limit)),
    [
      all(t, load.water, ({ amount }) => showWater(t, amount)),
      ...(load.water.length > 0 ? waterLines(t, figures) : []),
    ].join('\n'),
    load.slump.length > 0
      ? load.slump.map((one) => `${showSlump(t, one.value)}${notes(one.hash)}`).join('\n')
      : t('notRecorded'),
    ...COLUMNS.map(said),
    [gaps.join(', '), ...open].filter((text) => text !== '').join('\n'),
  ]
}

const all = <T,>(t: Words, fact: Fact<T>, show: (value: T) => string): string =>
  fact.length > 0 ? fact.map((said) => show(said.value)).join(' / ') : t('notRecorded')
