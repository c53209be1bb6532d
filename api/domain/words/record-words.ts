import { fill } from './fill.ts'
import { type RecordKey, recordEn } from './record-en.ts'
import { recordEs } from './record-es.ts'
import type { Language } from './words.ts'

export type { RecordKey } from './record-en.ts'

export const RECORD_WORDS: Readonly<Record<Language, Record<RecordKey, string>>> = {
  en: recordEn,
  es: recordEs,
}

/** Looks a word of the record's pages up; `{name}` in it is filled from `parts`. */
export const sayInRecord = (
  language: Language,
  key: RecordKey,
  parts: Readonly<Record<string, string | number>> = {},
): string => fill(RECORD_WORDS[language][key], parts)
