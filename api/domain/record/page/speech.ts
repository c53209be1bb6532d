import { clockOf, dayOf } from '../../time.ts'
import type { Quantity } from '../../units.ts'
import { bodyText, type Names } from '../../words/body-lines.ts'
import type { EntryWords } from '../../words/entry-words.ts'
import type { RecordKey } from '../../words/record-en.ts'
import { sayInRecord } from '../../words/record-words.ts'
import { ENTRY_WORDS, type Language } from '../../words/words.ts'
import { firstsOf } from '../history.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel, Who } from '../said.ts'

/** How one record speaks: its language, its day, its loads' numbers and its entries' counts. */
export type Speech = {
  readonly say: (key: RecordKey, parts?: Readonly<Record<string, string | number>>) => string
  readonly time: (at: string) => string
  readonly who: (who: Who) => string
  readonly said: (value: string, said: SaidModel) => string
  /** As `said`, with the time of the event too. */
  readonly saidAt: (value: string, said: SaidModel) => string
  /** The value with the entries that it was first said in, where any of these answers is a correction. */
  readonly marked: (value: string, answers: readonly SaidModel[]) => string
  readonly quantity: (quantity: Quantity) => string
  /** An entry's number in this job, by its hash; undefined where this record does not hold it. */
  readonly countOf: (hash: string) => number | undefined
  readonly place: (load: string | undefined) => string
  readonly day: string
  readonly offset: string
  readonly words: EntryWords
  /** What a body says, in one line. */
  readonly body: (body: object) => string
}

export const speechOf = (model: RecordModel): Speech => {
  const language: Language = model.language
  const words = ENTRY_WORDS[language]
  const { day, offset } = commonDay(model)
  const counts = new Map(model.thread.map((slot) => [slot.entry, slot.count]))
  const ordinals = new Map(
    model.job.loads.flatMap(({ load, joined, ordinal }) =>
      [load, ...joined].map((id) => [id, ordinal] as const),
    ),
  )
  const tell: Speech['say'] = (key, parts) => sayInRecord(language, key, parts)
  const time = (at: string): string => {
    const clock = dayOf(at) === day ? clockOf(at) : `${dayOf(at)} ${clockOf(at)}`
    return offsetOf(at) === offset ? clock : `${clock} UTC${offsetOf(at)}`
  }
  const who = (by: Who): string => by.name ?? tell(by.known === 'server' ? 'recServer' : 'recNobody')
  const firstOf = firstsOf(model.job.history)
  const marked = (value: string, answers: readonly SaidModel[]): string => {
    const firsts = [...new Set(answers.flatMap(({ entry }) => firstOf(entry)))].map((hash) => {
      const n = counts.get(hash)
      return n === undefined ? tell('recBeforeUnknown') : tell('recEntry', { n })
    })
    return firsts.length === 0 ? value : tell('recCorrected', { value, first: firsts.join(', ') })
  }
  const parts = (value: string, said: SaidModel) => ({
    value,
    who: who(said.by),
    time: time(said.at),
    minutes: said.delayMinutes,
  })
  const partNames = new Map(model.job.parts.map(({ part, name }) => [part, name]))
  const people = new Map(model.people.map(({ person, name }) => [person, name]))
  const names: Names = {
    load: (id) => (ordinals.has(id) ? tell('recLoad', { n: ordinals.get(id)! }) : undefined),
    part: (id) => partNames.get(id),
    person: (id) => people.get(id),
  }
  return {
    say: tell,
    time,
    who,
    said: (value, said) =>
      marked(tell(said.late === 'yes' ? 'recSaidLate' : 'recSaid', parts(value, said)), [said]),
    saidAt: (value, said) =>
      marked(tell(said.late === 'yes' ? 'recSaidAtLate' : 'recSaidAt', parts(value, said)), [said]),
    marked,
    quantity: ({ text, unit }) => `${text} ${words.units[unit]}`.trim(),
    countOf: (hash) => counts.get(hash),
    place: (load) => {
      const n = load === undefined ? undefined : ordinals.get(load)
      return n === undefined ? tell('recWholeJob') : tell('recLoad', { n })
    },
    day,
    offset,
    words,
    body: (body) => bodyText(body, words, names),
  }
}

const offsetOf = (at: string): string => at.slice(-6)

/** The day and offset that most of the job's entries by people bear: these need not be repeated at each time. */
const commonDay = (model: RecordModel): { day: string; offset: string } => {
  const tally = new Map<string, number>()
  for (const { at, by } of model.job.history) {
    if (by.known === 'server') continue
    const key = `${dayOf(at)} ${offsetOf(at)}`
    tally.set(key, (tally.get(key) ?? 0) + 1)
  }
  const [first] = [...tally].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
  const [day, offset] = (first?.[0] ?? `${model.made.slice(0, 10)} +00:00`).split(' ')
  return { day: day!, offset: offset! }
}
