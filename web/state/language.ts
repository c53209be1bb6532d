import { createEffect, createSignal } from 'solid-js'
import type { EntryWords } from '../../api/domain/words/entry-words.ts'
import { fill } from '../../api/domain/words/fill.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { LANGUAGES, type Language } from '../../api/domain/words/languages.ts'

export type Words = {
  (key: LabelKey, parts?: Readonly<Record<string, string | number>>): string
  /** Words for what entries hold: their kinds, fields, codes and units. */
  readonly entry: () => EntryWords
}

export type LanguageState = {
  readonly language: () => Language
  setLanguage(language: Language): void
  /** The word in the language of this device. */
  readonly t: Words
}

/** One dictionary is loaded at a time; both lie in the shell, so that the other needs no network either. */
export type Dictionary = {
  readonly language: Language
  readonly words: Readonly<Record<LabelKey, string>>
  readonly entries: EntryWords
}

export const loadDictionary = async (language: Language): Promise<Dictionary> => {
  if (language === 'es') {
    const [{ es }, { esEntries }] = await Promise.all([
      import('../../api/domain/words/es.ts'),
      import('../../api/domain/words/es-entries.ts'),
    ])
    return { language, words: es, entries: esEntries }
  }
  const [{ en }, { enEntries }] = await Promise.all([
    import('../../api/domain/words/en.ts'),
    import('../../api/domain/words/en-entries.ts'),
  ])
  return { language, words: en, entries: enEntries }
}

const KEPT = 'screedbook-language'

/** Kept per device, since a phone has one reader; at first whatever the browser is set to. */
export const startLanguage = (): Language => keptLanguage() ?? browserLanguage()

export const createLanguage = (first: Dictionary): LanguageState => {
  const [dictionary, setDictionary] = createSignal(first)
  const language = () => dictionary().language
  createEffect(() => {
    document.documentElement.lang = language()
  })
  return {
    language,
    setLanguage: (next) => {
      void loadDictionary(next).then(setDictionary)
      try {
        localStorage.setItem(KEPT, next)
      } catch {
        // A browser that keeps nothing asks again next time.
      }
    },
    t: Object.assign(
      (key: LabelKey, parts: Readonly<Record<string, string | number>> = {}) =>
        fill(dictionary().words[key], parts),
      { entry: () => dictionary().entries },
    ),
  }
}

const isLanguage = (text: string | null | undefined): text is Language => LANGUAGES.some((l) => l === text)

const keptLanguage = (): Language | undefined => {
  try {
    const kept = localStorage.getItem(KEPT)
    return isLanguage(kept) ? kept : undefined
  } catch {
    return undefined
  }
}

const browserLanguage = (): Language =>
  navigator.languages.map((tag) => tag.slice(0, 2).toLowerCase()).find(isLanguage) ?? 'en'
