import { createEffect, createSignal } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { LANGUAGES, type Language, say } from '../../api/domain/words/words.ts'

export type Words = (key: LabelKey, parts?: Readonly<Record<string, string | number>>) => string

export type LanguageState = {
  readonly language: () => Language
  setLanguage(language: Language): void
  /** The word in the language of this device. */
  readonly t: Words
}

const KEPT = 'screedbook-language'

/** Kept per device, since a phone has one reader; at first whatever the browser is set to. */
export const createLanguage = (): LanguageState => {
  const [language, setLanguage] = createSignal<Language>(keptLanguage() ?? browserLanguage())
  createEffect(() => {
    document.documentElement.lang = language()
  })
  return {
    language,
    setLanguage: (next) => {
      setLanguage(next)
      try {
        localStorage.setItem(KEPT, next)
      } catch {
        // A browser that keeps nothing asks again next time.
      }
    },
    t: (key, parts) => say(language(), key, parts),
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
