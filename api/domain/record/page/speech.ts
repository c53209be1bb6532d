import { canonicalJson } from '../../log/bytes.ts'
import type { Quantity } from '../../units.ts'
import { bodyLines, bodyText, type Names } from '../../words/body-lines.ts'
import type { EntryWords, FieldName } from '../../words/entry-words.ts'
import { type RecordKey, sayInRecord } from '../../words/record-words.ts'
import { ENTRY_WORDS, type Language } from '../../words/words.ts'
import { earlierOf, firstsOf } from '../history.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel, Who } from '../said.ts'
import { siteTimeOf } from './site-time.ts'

/** How one record speaks: its language, its day, its loads' numbers and its entries' counts. */
export type Speech = {
  readonly say: (key: RecordKey, parts?: Readonly<Record<string, string | number>>) => string
  readonly time: (at: string) => string
  readonly who: (who: Who) => string
  readonly said: (value: string, said: SaidModel) => string
  /** As `said`, with the time of the event too. */
  readonly saidAt: (value: string, said: SaidModel) => string
  /** Who said it, and how much later it was recorded. */
  readonly by: (said: SaidModel) => string
  /** As `by`, with the time of the event before it. */
  readonly byAt: (said: SaidModel) => string
  /** The value with the entries that it was first said in, where any of these answers is a correction. */
  readonly marked: (value: string, answers: readonly SaidModel[]) => string
  /** Whether a member of this answer's body was said otherwise before, or by an entry that this record does not hold. */
  readonly isChanged: (answer: SaidModel, member: FieldName) => boolean
  readonly quantity: (quantity: Quantity) => string
  /** An entry's number in this job, by its hash; undefined where this record does not hold it. */
  readonly countOf: (hash: string) => number | undefined
  readonly place: (load: string | undefined) => string
  /** Parts of the slab by their names, and a place in words. */
  readonly where: (parts: readonly string[] | undefined, where?: string) => string
  readonly day: string
  readonly offset: string
  readonly words: EntryWords
  /** The name of a member of a body, as a label. */
  readonly field: (name: FieldName) => string
  /** What a body says, in one line. */
  readonly body: (body: object) => string
  /** What one member of a body says, without its name. */
  readonly value: (name: FieldName, value: unknown) => string
}

/**
 * What is said in a record that holds a part of the entries alone: what it doesn't hold may have been recorded all the
 * same, and no sentence of it may say otherwise.
 */
const WHERE_PART: Readonly<Partial<Record<RecordKey, RecordKey>>> = {
  recNotRecorded: 'recNotHere',
  recNoLimit: 'recNoLimitHere',
  recNoTolerance: 'recNoLimitHere',
  recNoAllowance: 'recNoLimitHere',
  recNoWaiver: 'recNoWaiverHere',
  recRatioNoWater: 'recRatioNoWaterHere',
  recNoReadings: 'recNothingHere',
  recNoLimits: 'recNothingHere',
  recSilent: 'recSilentHere',
  recGapsHead: 'recGapsHeadHere',
  recGapNightsAfter: 'recGapNightsHere',
  recNoLoads: 'recNothingHere',
  recNoPhotos: 'recNothingHere',
  recNoRemarks: 'recNothingHere',
  recNoChanges: 'recNothingHere',
  recNoLate: 'recNothingHere',
  recNoParts: 'recNothingHere',
  recNoChecks: 'recNothingHere',
  recNoWeather: 'recNothingHere',
  recNoTemperatures: 'recNothingHere',
  recNoFinish: 'recNothingHere',
  recDrawnNoTrucks: 'recNothingHere',
}

export const speechOf = (model: RecordModel): Speech => {
  const language: Language = model.language
  const words = ENTRY_WORDS[language]
  const { show: time, day, offset } = siteTimeOf(model)
  const counts = new Map(model.thread.map((slot) => [slot.entry, slot.count]))
  const ordinals = new Map(
    model.job.loads.flatMap(({ load, joined, ordinal }) =>
      [load, ...joined].map((id) => [id, ordinal] as const),
    ),
  )
  const isPart = model.thread.some(({ is }) => is === 'withheld')
  const tell: Speech['say'] = (key, parts) =>
    sayInRecord(language, (isPart ? WHERE_PART[key] : undefined) ?? key, parts)
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
  const names = namesOf(model, ordinals, tell, time)
  return {
    say: tell,
    time,
    who,
    said: (value, said) =>
      marked(tell(said.late === 'yes' ? 'recSaidLate' : 'recSaid', parts(value, said)), [said]),
    saidAt: (value, said) =>
      marked(tell(said.late === 'yes' ? 'recSaidAtLate' : 'recSaidAt', parts(value, said)), [said]),
    by: (said) => marked(tell(said.late === 'yes' ? 'recByLate' : 'recBy', parts('', said)), [said]),
    byAt: (said) => marked(tell(said.late === 'yes' ? 'recByAtLate' : 'recByAt', parts('', said)), [said]),
    marked,
    isChanged: changedIn(model),
    quantity: ({ text, unit }) => `${text} ${words.units[unit]}`.trim(),
    countOf: (hash) => counts.get(hash),
    place: (load) => {
      const n = load === undefined ? undefined : ordinals.get(load)
      return n === undefined ? tell('recWholeJob') : tell('recLoad', { n })
    },
    where: (ids, where) =>
      [...(ids ?? []).map((id) => names.part(id) ?? tell('recPartUnknown')), ...(where ? [where] : [])].join(
        ', ',
      ),
    day,
    offset,
    words,
    field: (name) => capital(words.fields[name]),
    body: (body) => bodyText(body, words, names),
    value: (name, value) =>
      bodyLines({ [name]: value }, words, names)
        .map(({ text }) => text)
        .join(', '),
  }
}

const changedIn = ({ job: { history } }: RecordModel): Speech['isChanged'] => {
  const bodies = new Map(history.map(({ entry, body }) => [entry, body as Readonly<Record<string, unknown>>]))
  const earlier = earlierOf(history)
  const textOf = (hash: string, member: string): string | undefined => {
    const value = bodies.get(hash)?.[member]
    return value === undefined ? undefined : canonicalJson(value)
  }
  return ({ entry }, member) =>
    earlier(entry).some((hash) => !bodies.has(hash) || textOf(hash, member) !== textOf(entry, member))
}

const namesOf = (
  model: RecordModel,
  ordinals: ReadonlyMap<string, number>,
  tell: Speech['say'],
  time: (at: string) => string,
): Names => {
  const parts = new Map(model.job.parts.map(({ part, name }) => [part, name]))
  const people = new Map(model.people.map(({ person, name }) => [person, name]))
  return {
    load: (id) => (ordinals.has(id) ? tell('recLoad', { n: ordinals.get(id)! }) : undefined),
    part: (id) => parts.get(id),
    person: (id) => people.get(id),
    time,
  }
}

export const capital = (text: string): string => text.slice(0, 1).toLocaleUpperCase('en') + text.slice(1)
