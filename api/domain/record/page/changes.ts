import { canonicalJson } from '../../log/bytes.ts'
import type { ChangeModel, EntryModel } from '../history.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import type { Speech } from './speech.ts'
import { aboutText, isStamp, valueText } from './statement.ts'

export const changeBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const entries = new Map(job.history.map((entry) => [entry.entry, entry]))
  const lines = job.changes.flatMap((change) => changeLine(change, entries, speech))
  return section(speech.say('recChanges'), orElse(lines, speech.say('recNoChanges')))
}

/** Old value, new value, who, when and why: the first value is never hidden. */
const changeLine = (
  change: ChangeModel,
  entries: ReadonlyMap<string, EntryModel>,
  speech: Speech,
): string[] => {
  const entry = entries.get(change.entry)
  if (!entry) return []
  const olds = change.names.flatMap((hash) => entries.get(hash) ?? [])
  const told = change.is === 'withdrawal' ? ALL : toldOf(entry, olds)
  const before = change.names.map((hash) => {
    const old = entries.get(hash)
    if (!old) return speech.say('recBeforeUnknown')
    const value = speech.said(tell(old, told, speech), old)
    const about = change.is === 'withdrawal' ? `${aboutText(old, speech)}: ${value}` : value
    return speech.say('recBefore', { n: speech.countOf(hash) ?? '?', value: about })
  })
  const now = tell(entry, told, speech)
  const line = speech.say(change.is === 'withdrawal' ? 'recWithdrawal' : 'recCorrection', {
    who: speech.who(entry.by),
    time: speech.time(entry.recordedAt),
    n: speech.countOf(entry.entry) ?? '?',
    what: aboutText(entry, speech),
    before: before.join('; '),
    now: told.members ? speech.say('recRestSame', { value: now }) : now,
    why: (entry.why?.text ?? speech.say('recWhyNot')).replace(/\.$/, ''),
  })
  return [entry.stands === 'stands' ? line : `${line} ${speech.say('recOverruled')}`]
}

/** What is told of both values: some members alone, and the time of the event where it is not the same. */
type Told = { readonly members: ReadonlySet<string> | undefined; readonly withTime: boolean }
const ALL: Told = { members: undefined, withTime: false }

/** A body of more members is told by those that differ. */
const FEW = 4

const toldOf = (entry: EntryModel, olds: readonly EntryModel[]): Told => {
  const withTime = !isStamp(entry.kind) && olds.some(({ at }) => at !== entry.at)
  const bodies = [entry, ...olds].map(({ body }) => body as Readonly<Record<string, unknown>>)
  const names = [...new Set(bodies.flatMap((body) => Object.keys(body)))]
  const differing = names.filter((name) => new Set(bodies.map((body) => textOf(body[name]))).size > 1)
  const few = names.length <= FEW || olds.some(({ kind }) => kind !== entry.kind)
  return { members: few || differing.length === 0 ? undefined : new Set(differing), withTime }
}

const textOf = (value: unknown): string => (value === undefined ? '' : canonicalJson(value))

const tell = (entry: EntryModel, { members, withTime }: Told, speech: Speech): string => {
  const value = valueText(entry, speech, members)
  return withTime ? [value, speech.time(entry.at)].filter(Boolean).join(', ') : value
}
