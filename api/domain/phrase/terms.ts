import type { Token } from './tokens.ts'
import { AREAS } from './vocabulary/areas.ts'
import type { Term } from './vocabulary/term.ts'
import { ENGLISH_TERMS } from './vocabulary/terms-en.ts'
import { SPANISH_TERMS } from './vocabulary/terms-es.ts'

type Node = { readonly next: Map<string, Node>; terms: Set<Term> | undefined }

const node = (): Node => ({ next: new Map(), terms: undefined })

/** Every way to say a pattern: `(a|b)` is either, `[a]` may be left out. */
export const ways = (pattern: string): string[][] => {
  let out: string[][] = [[]]
  for (const [, either, maybe, plain] of pattern.matchAll(/\(([^)]*)\)|\[([^\]]*)\]|([^\s()[\]]+)/g)) {
    const options =
      plain !== undefined
        ? [[plain]]
        : (either ?? maybe ?? '').split('|').map((option) => option.split(' ').filter((word) => word !== ''))
    if (maybe !== undefined) options.push([])
    out = out.flatMap((so) => options.map((option) => [...so, ...option]))
  }
  return out
}

const build = (): Node => {
  const root = node()
  const add = (words: readonly string[], term: Term): void => {
    let at = root
    for (const word of words) {
      let next = at.next.get(word)
      if (!next) {
        next = node()
        at.next.set(word, next)
      }
      at = next
    }
    at.terms ??= new Set()
    at.terms.add(term)
  }
  for (const list of [ENGLISH_TERMS, SPANISH_TERMS])
    for (const [term, patterns] of Object.entries(list))
      for (const pattern of patterns)
        for (const words of ways(pattern)) if (words.length > 0) add(words, term as Term)
  for (const area of AREAS) add(area.split(' '), 'area')
  return root
}

const ROOT = build()

export type Match = { readonly terms: ReadonlySet<Term>; readonly to: number }

/** The longest term that starts at a token. A term never runs over a mark of the sentence. */
export const matchTerm = (tokens: readonly Token[], i: number): Match | undefined => {
  let at: Node | undefined = ROOT
  let found: Match | undefined
  for (let j = i; j < tokens.length && j < i + 8; j++) {
    at = at.next.get(tokens[j]!.text)
    if (!at) break
    if (at.terms) found = { terms: at.terms, to: j + 1 }
  }
  return found
}
