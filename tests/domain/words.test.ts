import { describe, expect, test } from 'vitest'
import { PROBLEMS } from '../../api/contract/problems.ts'
import { checkEn } from '../../api/domain/words/check-en.ts'
import { checkEs } from '../../api/domain/words/check-es.ts'
import { en } from '../../api/domain/words/en.ts'
import { es } from '../../api/domain/words/es.ts'
import { fill } from '../../api/domain/words/fill.ts'
import { recordEn } from '../../api/domain/words/record-en.ts'
import { recordEs } from '../../api/domain/words/record-es.ts'
import { sayInRecord } from '../../api/domain/words/record-words.ts'
import { LANGUAGES, say } from '../../api/domain/words/words.ts'

/** The screens' words, the record's and the checker's page's: the same rules hold for all. */
const ENGLISH = { ...en, ...recordEn, ...checkEn } as const
type AnyKey = keyof typeof ENGLISH
const SPANISH: Record<AnyKey, string> = { ...es, ...recordEs, ...checkEs }
const KEYS = Object.keys(ENGLISH) as AnyKey[]
const DICTIONARIES = { en: ENGLISH, es: SPANISH } as const
const holdersIn = (text: string): string[] => (text.match(/\{\w+\}/g) ?? []).sort()

test('[words] Spanish has every key of English, and no other', () => {
  expect(Object.keys(es).sort()).toEqual(Object.keys(en).sort())
  expect(Object.keys(recordEs).sort()).toEqual(Object.keys(recordEn).sort())
  expect(Object.keys(checkEs).sort()).toEqual(Object.keys(checkEn).sort())
  const apart = [en, recordEn, checkEn].map((words) => Object.keys(words).length)
  expect(KEYS).toHaveLength(apart.reduce((sum, count) => sum + count))
})

test('[words] a text has the same places to fill in both languages', () => {
  for (const key of KEYS) {
    const [inEnglish, inSpanish] = [new Set(holdersIn(ENGLISH[key])), new Set(holdersIn(SPANISH[key]))]
    expect([...inSpanish], key).toEqual([...inEnglish])
  }
})

test('[words] no text is empty, half filled in, or has blanks doubled', () => {
  for (const language of LANGUAGES)
    for (const key of KEYS) {
      const text = DICTIONARIES[language][key]
      expect(text.trim(), `${language} ${key}`).not.toBe('')
      expect(text.replaceAll(/\{\w+\}/g, 'x'), `${language} ${key}`).not.toMatch(/[{}]| {2}|undefined/)
    }
})

/** The same in both languages: the program's name, units, words that Spanish shares, and frames around other words. */
const SAME: readonly AnyKey[] = [
  'appName',
  'unitMin',
  'hoursCount',
  'minutesCount',
  'recBy',
  'recByAt',
  'recDrawnLate',
  'recDrawnMark',
  'recGapIs',
  'recGapOf',
  'recMadeIs',
  'recMinutes',
  'recPerson',
  'recPhotoLine',
  'recPlaced',
  'recPrintFile',
  'recSaid',
  'recSaidAt',
]

test('[words] no Spanish text is the English one, but for those listed', () => {
  expect(KEYS.filter((key) => (ENGLISH[key] as string) === SPANISH[key]).sort()).toEqual([...SAME].sort())
})

/** A comparison is a finding: measured value, limit, and where it lies. It judges nobody. Source: DESIGN, What is computed. */
const JUDGING = {
  en: /\b(?:non-?complian\w*|complian\w*|comply\w*|violat\w*|faults?|faulty|safe|safely|unsafe|guilty|caused by|illegal)\b/i,
  es: /\b(?:incumpl\w*|cumpl\w*|viola\w*|infracci\w*|culpa\w*|a salvo|inseguro\w*|ilegal\w*|causad\w+ por)\b/i,
} as const
/** Cautions may speak of what can hurt. */
const CAUTIONS = KEYS.filter((key) => key.startsWith('caution'))

describe('[words] no word judges', () => {
  for (const language of LANGUAGES)
    test(`[words] in ${language}`, () => {
      const judging = KEYS.filter((key) => !CAUTIONS.includes(key)).filter((key) =>
        JUDGING[language].test(DICTIONARIES[language][key]),
      )
      expect(judging).toEqual([])
    })

  test('[words] the four that the plan names are in no text at all', () => {
    for (const language of LANGUAGES)
      for (const key of KEYS)
        expect(DICTIONARIES[language][key], key).not.toMatch(/\b(?:compliant|violations?|faults?|safe)\b/i)
  })
})

test('[words] filling in leaves nothing open, takes no pattern from what is filled in, and keeps what it lacks', () => {
  expect(sayInRecord('en', 'recOnLoad', { what: '$& {n}', n: 2 })).toBe('$& {n}, load 2')
  expect(say('es', 'loadNumber', { number: 3 })).toBe('Carga 3')
  expect(say('en', 'loadNumber')).toBe('Load {number}')
})

test('[problems] each code has a sentence in both languages that says what to do, and only “at” to fill in', () => {
  for (const { says } of Object.values(PROBLEMS))
    for (const language of LANGUAGES) {
      const text = DICTIONARIES[language][says]
      expect(text, says).toMatch(/[.?]$/)
      expect(holdersIn(text).filter((holder) => holder !== '{at}')).toEqual([])
    }
})

test('[words] brackets around an empty part go with it', () => {
  expect(fill('A field ({at}) is odd.', { at: '' })).toBe('A field is odd.')
  expect(fill('A field ({at}) is odd.', { at: '/body' })).toBe('A field (/body) is odd.')
})
