import { en } from './en.ts'
import { enEntries } from './en-entries.ts'
import type { EntryWords } from './entry-words.ts'
import { es } from './es.ts'
import { esEntries } from './es-entries.ts'
import { fill } from './fill.ts'
import type { LabelKey } from './labels.ts'
import type { Language } from './languages.ts'

export { LANGUAGES, type Language } from './languages.ts'

const DICTIONARIES: Record<Language, Record<LabelKey, string>> = { en, es }

/** Looks a word up; `{name}` in it is filled from `parts`. */
export const say = (
  language: Language,
  key: LabelKey,
  parts: Readonly<Record<string, string | number>> = {},
): string => fill(DICTIONARIES[language][key], parts)

/** What entries say, in a language. */
export const ENTRY_WORDS: Readonly<Record<Language, EntryWords>> = { en: enEntries, es: esEntries }
