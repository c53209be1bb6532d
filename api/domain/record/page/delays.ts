import { isAheadBy } from '../../job/standing.ts'
import type { RecordKey } from '../../words/record-words.ts'
import type { EntryModel } from '../history.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import { inTime } from './in-time.ts'
import { runsText } from './runs.ts'
import type { Speech } from './speech.ts'
import { aboutText, valueText } from './statement.ts'

/** Receipt this many minutes after recording is told of: no network meanwhile, or a clock that was off. */
const RECEIPT_MINUTES = 60
/** Receipt before recording by no more than this is two good clocks that differ a little. */
const AHEAD_MINUTES = 2

/** `entry 18 (1440 min), …`: entries received long after, or before, the time that their device's clock gave them. */
export const oddReceipts = (history: readonly EntryModel[], speech: Speech): string | undefined => {
  const texts = history
    .flatMap(({ entry, receiptMinutes: minutes }) => {
      const n = speech.countOf(entry)
      return n === undefined ||
        minutes === undefined ||
        (minutes >= -AHEAD_MINUTES && minutes <= RECEIPT_MINUTES)
        ? []
        : [{ n, minutes }]
    })
    .sort((a, b) => a.n - b.n)
    .map((odd) => speech.say('recEntryMinutes', odd))
  return texts.length === 0 ? undefined : texts.join(', ')
}

export const delayBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const late = job.history.filter((entry) => entry.late === 'yes')
  const ahead = job.history.filter((entry) => isAheadBy(entry.delayMinutes))
  const delays = job.history.flatMap(({ receiptMinutes }) =>
    receiptMinutes === undefined ? [] : [receiptMinutes],
  )
  const receipt = speech.say('recReceipt', {
    shortest: delays.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    longest: delays.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
  })
  const odd = oddReceipts(job.history, speech)
  return section(speech.say('recDelays'), [
    ...orElse(lateLines(late, speech), speech.say('recNoLate')),
    ...ahead.map((entry) => delayText('recAheadLine', entry, speech)),
    ...(delays.length > 0 ? [receipt] : []),
    ...(odd === undefined ? [] : [speech.say('recReceiptOdd', { entries: odd })]),
  ])
}

/** So many of one kind by one person are one line with its range: each stands with its mark where it is told. */
const TOGETHER = 4

const lateLines = (late: readonly EntryModel[], speech: Speech): string[] => {
  const groups = new Map<string, EntryModel[]>()
  for (const entry of late) {
    const key = [aboutText(entry, speech), speech.who(entry.by)].join('\n')
    groups.set(key, [...(groups.get(key) ?? []), entry])
  }
  return [...groups.values()].flatMap((group) =>
    group.length < TOGETHER
      ? group.map((entry) => delayText('recLateLine', entry, speech))
      : [groupText(group, speech)],
  )
}

const groupText = (group: readonly EntryModel[], speech: Speech): string => {
  const times = inTime(group)
  const delays = group.map(({ delayMinutes }) => delayMinutes)
  return speech.say('recLateGroup', {
    n: group.length,
    what: aboutText(group[0]!, speech),
    entries: runsText(group.flatMap(({ entry }) => speech.countOf(entry) ?? [])),
    first: speech.time(times[0]!.at),
    last: speech.time(times.at(-1)!.at),
    least: delays.reduce((a, b) => Math.min(a, b)),
    most: delays.reduce((a, b) => Math.max(a, b)),
    who: speech.who(group[0]!.by),
  })
}

const delayText = (key: RecordKey, entry: EntryModel, speech: Speech): string =>
  speech.say(key, {
    n: speech.countOf(entry.entry) ?? '?',
    what: aboutText(entry, speech),
    value: valueText(entry, speech),
    time: speech.time(entry.at),
    minutes: Math.abs(entry.delayMinutes),
    who: speech.who(entry.by),
  })
