import type { Page } from 'playwright-core'
import { en } from '../../api/domain/words/en.ts'
import { enEntries } from '../../api/domain/words/en-entries.ts'
import { es } from '../../api/domain/words/es.ts'
import { esEntries } from '../../api/domain/words/es-entries.ts'

/** Texts that stand in the page and are nobody's own words. */
const textsOn = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const own = (node: Element | null): boolean => node?.closest('[translate="no"], script, style') !== null
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    const found: string[] = []
    for (let node = walk.nextNode(); node; node = walk.nextNode())
      if (!own(node.parentElement) && node.textContent?.trim()) found.push(node.textContent.trim())
    for (const element of document.querySelectorAll('[aria-label], [alt], [placeholder], [title]'))
      for (const name of ['aria-label', 'alt', 'placeholder', 'title']) {
        const text = element.getAttribute(name)
        if (text && !own(element)) found.push(text)
      }
    return found
  })

const SPANISH = [es, esEntries.fields, esEntries.codes, esEntries.kinds].flatMap((all) => Object.values(all))
/** The dictionary's English, cut at its blanks, without what Spanish says the same way. */
const ENGLISH = [en, enEntries.fields, enEntries.codes, enEntries.kinds]
  .flatMap((all) => Object.values<string>(all))
  .flatMap((text) => text.split(/\{\w+\}/))
  .map((text) => text.trim())
  .filter((text) => /[a-z]{3}/i.test(text) && !SPANISH.some((spanish) => spanish.includes(text)))
  .flatMap((text) => [text, text.slice(0, 1).toUpperCase() + text.slice(1), `+ ${text}`])
const ENGLISH_WORDS =
  /\b(?:the|this|these|is|are|of|and|not|with|for|on|it|was|yet|here|load|truck|ticket|photo|save|log)\b/i

/** Texts on a Spanish screen that the dictionary has in English, or that read as English. */
export const leftInEnglish = async (page: Page): Promise<string[]> =>
  (await textsOn(page)).filter((text) => ENGLISH.includes(text) || ENGLISH_WORDS.test(text))
