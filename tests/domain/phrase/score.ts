import { readFileSync } from 'node:fs'
import type { Fact } from '../../../api/domain/phrase/facts.ts'

export type Spoken = {
  readonly id: string
  readonly lang: string
  readonly said: string
  readonly facts: readonly Fact[]
}

/** A file of sentences with the facts that each must give. */
export const spoken = (file: string): Spoken[] => {
  const [head, ...lines] = readFileSync(new URL(`../../cases/${file}`, import.meta.url), 'utf8')
    .trimEnd()
    .split('\n')
  const columns = head!.split('\t')
  return lines.map((line, i) => {
    const cells = line.split('\t')
    const cell = (name: string) => cells[columns.indexOf(name)] ?? ''
    return {
      id: cell('id') || `line ${i + 2}`,
      lang: cell('lang'),
      said: cell('utterance'),
      facts: JSON.parse(cell('facts_json')),
    }
  })
}

/** What must agree for a fact to be exact; a note or a reason counts by being there. */
const sameTime = (a: Fact, b: Fact): boolean => a.at === b.at && a.min_ago === b.min_ago && a.time === b.time

export const isExact = (wanted: Fact, got: Fact): boolean =>
  wanted.kind === 'note'
    ? got.kind === 'note'
    : wanted.kind === got.kind &&
      wanted.value === got.value &&
      wanted.min === got.min &&
      wanted.max === got.max &&
      wanted.unit === got.unit &&
      sameTime(wanted, got) &&
      wanted.load === got.load &&
      wanted.name === got.name &&
      wanted.stage === got.stage &&
      wanted.not_taken === got.not_taken

export type Score = {
  readonly wanted: number
  readonly exact: number
  /** Said with confidence and not so: another value, or a fact that nobody spoke of. */
  readonly wrong: number
  readonly got: number
  readonly misses: readonly string[]
}

const short = (fact: Fact): string => {
  const { text, about, unit_assumed, ...rest } = fact
  return JSON.stringify({ ...rest, ...(about ? { about } : {}) })
}

/** Pairs what was wanted with what came. A wanted fact of low confidence may be left out. */
export const score = (all: readonly Spoken[], read: (said: string) => readonly Fact[]): Score => {
  let wanted = 0
  let exact = 0
  let wrong = 0
  let got = 0
  const misses: string[] = []
  for (const { id, said, facts } of all) {
    const open = [...read(said)]
    got += open.length
    const missing: Fact[] = []
    for (const fact of facts) {
      wanted += 1
      const at = open.findIndex((one) => isExact(fact, one))
      if (at >= 0) {
        open.splice(at, 1)
        exact += 1
      } else if (fact.low_confidence && !open.some((one) => one.kind === fact.kind)) exact += 1
      else missing.push(fact)
    }
    const confident = open.filter((fact) => !fact.low_confidence)
    wrong += confident.length
    if (missing.length > 0 || confident.length > 0)
      misses.push(
        `${id} ${said}\n    missing ${missing.map(short).join(' ')}\n    extra ${open.map(short).join(' ')}`,
      )
  }
  return { wanted, exact, wrong, got, misses }
}
