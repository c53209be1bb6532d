import { expect, test } from 'vitest'
import { FINDING_WORDS } from '../../api/domain/words/finding-words.ts'
import { ENTRY_WORDS, LANGUAGES } from '../../api/domain/words/words.ts'

/** Every text of a language’s findings, by its place. */
const textsOf = (language: 'en' | 'es'): Map<string, string> =>
  new Map(
    Object.entries(FINDING_WORDS[language]).flatMap(([group, words]) =>
      Object.entries(words).map(([key, text]) => [`${group}/${key}`, text] as const),
    ),
  )
const [EN, ES] = [textsOf('en'), textsOf('es')]
const holders = (text: string): string[] => [...new Set(text.match(/\{\w+\}/g))].sort()

test('[words] findings have the same texts in both languages, with the same places to fill in', () => {
  expect([...ES.keys()].sort()).toEqual([...EN.keys()].sort())
  for (const [key, text] of EN) expect(holders(ES.get(key)!), key).toEqual(holders(text))
})

test('[words] none of them is empty or the same in both languages, but a source that was read, and units', () => {
  for (const [key, text] of EN) {
    if (key === 'how/read' || key.startsWith('units/')) continue
    expect(text.trim(), key).not.toBe('')
    expect(ES.get(key), key).not.toBe(text)
  }
})

/** A comparison gives numbers and where they lie. Source: DESIGN, What is computed. */
test('[words] no finding judges, advises, or says that something is safe', () => {
  const judging =
    /\b(?:complian\w*|comply\w*|violat\w*|fault\w*|safe\w*|unsafe|should|must|caused by|fail\w*|pass\w*|cumpl\w*|incumpl\w*|viola\w*|infracci\w*|culpa\w*|segur[ao]s?|debe\w*)\b/i
  for (const [key, text] of [...EN, ...ES]) expect(text, key).not.toMatch(judging)
})

test('[words] a choice and each of its editions have words, told apart, in both languages', () => {
  const codes = [
    'C94-21',
    'C94-13',
    'C94-98',
    '306R-10',
    '306R-88',
    '301-20',
    'older',
    'uno-us',
    'plain',
  ] as const
  for (const language of LANGUAGES) {
    const said = codes.map((code) => ENTRY_WORDS[language].codes[code])
    expect(new Set(said).size).toBe(codes.length)
  }
})
