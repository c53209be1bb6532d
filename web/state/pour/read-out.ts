import type { LoadFigures } from '../../../api/domain/job/figures.ts'
import type { JobView, LoadView } from '../../../api/domain/job/view.ts'
import type { LocalTime } from '../../../api/domain/time.ts'
import type { Names } from '../../../api/domain/words/body-lines.ts'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import { allowanceLines, MISSING, ODDITIES, toleranceText, waterLines } from '../finding-text.ts'
import type { Words } from '../language.ts'
import { limitText } from '../limit-text.ts'
import { limitLines, loadClock } from '../load-clock.ts'
import { showQuantity, showSlump, showText } from '../show.ts'
import { waterSumText } from '../water-text.ts'

/** A load as it is read before its ticket is signed. Words only, so that it can be shown large and spoken alike. */
export type ReadOut = {
  /** What does not agree: look at it before signing. */
  readonly against: readonly string[]
  readonly facts: readonly { readonly label: string; readonly values: readonly string[] }[]
  readonly missing: readonly string[]
}

export type ReadOutOf = {
  readonly load: LoadView
  readonly figures: LoadFigures
  readonly job: Pick<JobView, 'mix'>
  readonly now: LocalTime
  readonly names: Names
}

export const readOut = (t: Words, of: ReadOutOf): ReadOut => {
  const { load, figures } = of
  const readings = readingLines(t, of)
  return {
    against: [
      ...mixAgainst(t, of),
      ...figures.oddities.map((odd) => t(ODDITIES[odd])),
      ...readings.filter(({ outside }) => outside).map(({ text }) => text),
      ...limitLines(load, figures, of.now, of.job.mix).flatMap((line) =>
        (line.is === 'checked' && line.check.verdict === 'outside') ||
        (line.is === 'running' && line.left < 0)
          ? [limitText(t, line)]
          : [],
      ),
      ...figures.ticketWaters.flatMap(({ allowance }) =>
        allowance.is === 'given' && allowance.verdict === 'outside' ? allowanceLines(t, allowance) : [],
      ),
    ],
    facts: [
      { label: t('mix'), values: mixes(t, load) },
      { label: t('yards'), values: yards(t, load) },
      { label: t('minutesHead'), values: minutes(t, of) },
      {
        label: t('water'),
        values: [waterSumText(t, figures.water), ...(load.water.length > 0 ? waterLines(t, figures) : [])],
      },
      ...(readings.length > 0 ? [{ label: t('tests'), values: readings.map(({ text }) => text) }] : []),
    ],
    missing: figures.missing.filter((key) => key !== 'left').map((key) => t(MISSING[key])),
  }
}

/** The read-out as one text to be spoken, in the order in which it is shown. */
export const spoken = (title: string, out: ReadOut, labels: { against: string; missing: string }): string =>
  [
    title,
    ...(out.against.length > 0 ? [`${labels.against}: ${out.against.join('; ')}`] : []),
    ...out.facts.map(({ label, values }) => `${label}: ${values.join('; ')}`),
    ...(out.missing.length > 0 ? [`${labels.missing} ${out.missing.join(', ')}`] : []),
  ].join('. ')

const unsaid = (t: Words, values: readonly string[]): readonly string[] =>
  values.length > 0 ? [...new Set(values)] : [t('notRecorded')]

const mixes = (t: Words, load: LoadView): readonly string[] =>
  unsaid(
    t,
    load.ticket.flatMap(({ value: { mix } }) => (mix ? [showText(t, mix)] : [])),
  )

/** The ticket names another mix than was ordered, letter by letter but for blanks and capitals. */
const mixAgainst = (t: Words, { load, job }: ReadOutOf): readonly string[] => {
  const plain = (text: string): string => text.replaceAll(/[\s-]/g, '').toLowerCase()
  return load.ticket.flatMap(({ value: { mix } }) =>
    job.mix.flatMap(({ value: { code } }) =>
      mix?.is === 'given' && code && plain(mix.text) !== plain(code)
        ? [t('mixDiffers', { ticket: mix.text, order: code })]
        : [],
    ),
  )
}

const yards = (t: Words, load: LoadView): readonly string[] =>
  unsaid(
    t,
    load.ticket.map(({ value: { yards: on } }) =>
      on.is === 'given' ? showQuantity(t, on) : t('notOnTicket'),
    ),
  )

const CLOCK: Readonly<Record<'no-ticket' | 'batching-not-stated' | 'end-not-recorded', LabelKey>> = {
  'no-ticket': 'clockNoTicket',
  'batching-not-stated': 'clockNoBatching',
  'end-not-recorded': 'clockNoEnd',
}

const minutes = (t: Words, { load, figures, job, now }: ReadOutOf): readonly string[] => {
  const clock = loadClock(load, figures, now)
  const counted =
    clock.is === 'running' || clock.is === 'ended'
      ? `${t('minutesCount', { minutes: clock.minutes.join(' / ') })} ${t(clock.is === 'running' ? 'sinceBatching' : 'batchingToEndShort')}`
      : t(CLOCK[clock.is])
  return [counted, ...limitLines(load, figures, now, job.mix).map((line) => limitText(t, line))]
}

/** Each reading with how it lies; one by eye says so. */
const readingLines = (
  t: Words,
  { load, figures }: ReadOutOf,
): readonly { readonly text: string; readonly outside: boolean }[] => {
  const lines = [
    ...load.slump.map((said) => ({ hash: said.hash, text: `${t('slump')} ${showSlump(t, said.value)}` })),
    ...load.air.map(({ hash, value: { air } }) => ({
      hash,
      text: `${t('air')} ${air.is === 'given' ? showQuantity(t, air) : t('notTaken')}`,
    })),
  ]
  return lines.map(({ hash, text }) => {
    const checks = figures.tolerances.filter(({ reading }) => reading === hash)
    return {
      text: [text, ...checks.map((check) => toleranceText(t, check))].join(' · '),
      outside: checks.some(({ verdict }) => verdict === 'outside'),
    }
  })
}
