import { type CheckKey, checkEn } from './check-en.ts'
import { checkEs } from './check-es.ts'
import { fill } from './fill.ts'
import type { Language } from './words.ts'

export type { CheckKey } from './check-en.ts'

const CHECK_WORDS: Readonly<Record<Language, Record<CheckKey, string>>> = { en: checkEn, es: checkEs }

/** Looks a word of the checker's page up; `{name}` in it is filled from `parts`. */
export const sayInCheck = (
  language: Language,
  key: CheckKey,
  parts: Readonly<Record<string, string | number>> = {},
): string => fill(CHECK_WORDS[language][key], parts)
