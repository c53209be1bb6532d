import { clockOf, dayOf, LOCAL_TIME } from '../time.ts'
import type { Unit } from '../units.ts'
import type { EntryWords } from './entry-words.ts'

/** Names of what entries name by id; undefined where it is not known. */
export type Names = {
  readonly load: (id: string) => string | undefined
  readonly part: (id: string) => string | undefined
  readonly person: (id: string) => string | undefined
  /** How a time is shown; as its own text has it, day and clock, where this is absent. */
  readonly time?: (at: string) => string
}
export type BodyLine = { readonly label: string; readonly text: string }

/** Members whose strings are codes with words; any other string is a person's own and is never translated. */
const CODED = new Set([
  'is',
  'how',
  'of',
  'what',
  'step',
  'phase',
  'stage',
  'method',
  'point',
  'water',
  'from',
  'to',
  'shows',
  'reason',
  'change',
  'found',
  'size',
  'source',
  'role',
  'use',
  'verdict',
  'type',
  'curb',
  'discharge',
  'tolerances',
  'coldWeather',
  'placing',
  'hot',
  'evaporation',
  'threshold',
  'spacingCap',
  'saw',
  'service',
  'cement',
])

/** What a reading or an order is of: the kind's own word names it. */
const VALUES = new Set(['slump', 'flow', 'amount', 'yards', 'depth', 'temperature', 'density'])

/** Whether a member needs no label in a line that the kind's word begins: the one reading, and what is plain by itself. */
const isPlainly = (name: string, body: object): boolean =>
  VALUES.has(name) ? isReading(name, body) : CODED.has(name) && !LABELLED.has(name)
const isReading = (name: string, body: object): boolean => {
  const value = (body as Plain)[name]
  const isAsked = isPlain(value) && (value.is === 'target' || value.is === 'most')
  return !isAsked && Object.keys(body).filter((one) => VALUES.has(one)).length === 1
}
const LABELLED = new Set([
  'water',
  'from',
  'to',
  'reason',
  'size',
  'source',
  'curb',
  'discharge',
  'tolerances',
  'coldWeather',
  'placing',
  'hot',
  'evaporation',
  'threshold',
  'spacingCap',
  'saw',
  'service',
  'cement',
])

type Plain = Readonly<Record<string, unknown>>
const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const isText = (value: unknown): value is string => typeof value === 'string'

/**
 * What a body says, one line a member, in the words of a language: for any kind, also one that was added after this was
 * written. Quantities as they were entered; people, loads and parts by name.
 */
export const bodyLines = (body: object, words: EntryWords, names: Names): BodyLine[] =>
  Object.entries(body)
    .filter(([, value]) => value !== undefined)
    .flatMap(([name, value]) => linesOf(name, value, words, names))

/** The same in one line. */
export const bodyText = (body: object, words: EntryWords, names: Names): string =>
  Object.entries(body)
    .filter(([, value]) => value !== undefined)
    .sort(([a], [b]) => Number(VALUES.has(b)) - Number(VALUES.has(a)))
    .flatMap(([name, value]) =>
      linesOf(name, value, words, names).map(({ label, text }) =>
        isPlainly(name, body) ? text : `${label}: ${text}`,
      ),
    )
    .join(', ')

const linesOf = (name: string, value: unknown, words: EntryWords, names: Names): BodyLine[] => {
  const label = word(words.fields, name) ?? name
  const text = textOf(name, value, words, names)
  if (text !== undefined) return [{ label, text }]
  if (Array.isArray(value)) {
    const all = value.map((one) =>
      isPlain(one) ? bodyText(one, words, names) : textOf(name, one, words, names),
    )
    return [{ label, text: all.join(' | ') }]
  }
  return isPlain(value)
    ? bodyLines(value, words, names).map((l) => ({ label: `${label}, ${l.label}`, text: l.text }))
    : []
}

const textOf = (name: string, value: unknown, words: EntryWords, names: Names): string | undefined => {
  if (typeof value === 'number') return String(value)
  if (isText(value)) return stringOf(name, value, words, names)
  if (Array.isArray(value)) {
    const texts = value.map((one) => textOf(name, one, words, names))
    return texts.every(isText) ? texts.join(', ') : undefined
  }
  if (!isPlain(value)) return undefined
  if (isText(value.is)) return taggedOf(value, words, names)
  if (isText(value.lang) && isText(value.text)) return `“${value.text}”`
  if (isText(value.called)) return value.called
  if (isText(value.person)) return names.person(value.person) ?? value.person
  return undefined
}

const stringOf = (name: string, value: string, words: EntryWords, names: Names): string => {
  if (name === 'load' || name === 'loads') return names.load(value) ?? value
  if (name === 'part' || name === 'parts') return names.part(value) ?? value
  if (name === 'person') return names.person(value) ?? value
  if (LOCAL_TIME.test(value)) return timeOf(value, names)
  return (CODED.has(name) ? word(words.codes, value) : undefined) ?? value
}

/** One tagged value (SPEC L10): what was given, or which of the other things was said. */
const taggedOf = (value: Plain, words: EntryWords, names: Names): string => {
  const said = (key: string) => textOf(key, value[key], words, names)
  if (value.is === 'target')
    return value.tolerance ? `${said('target')} ± ${said('tolerance')}` : String(said('target'))
  if (value.is === 'most') return `${words.fields.most} ${said('most')}`
  if (value.is !== 'given') return word(words.codes, String(value.is)) ?? String(value.is)
  if (isPlain(value.target) || isPlain(value.from) || isPlain(value.to)) return askedText(value, said)
  if (isText(value.at)) return timeOf(value.at, names)
  if (value.words !== undefined) return said('words') ?? ''
  const unit = isText(value.unit) ? words.units[value.unit as Unit] : undefined
  const amount = unit ? `${String(value.text)} ${unit}` : String(value.text)
  return isText(value.to) ? `${amount}, ${said('to')}` : amount
}

const timeOf = (at: string, names: Names): string => names.time?.(at) ?? `${dayOf(at)} ${clockOf(at)}`

/** `6.5 % (5 % – 8 %)`, with whichever of the three was said. */
const askedText = (value: Plain, said: (key: string) => string | undefined): string => {
  const ends = [value.from ? said('from') : '', value.to ? said('to') : ''].join(' – ')
  if (!value.target) return ends
  return value.from || value.to ? `${said('target')} (${ends})` : String(said('target'))
}

const word = (words: Readonly<Record<string, string>>, key: string): string | undefined =>
  Object.hasOwn(words, key) ? words[key] : undefined
