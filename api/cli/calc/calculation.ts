import type { Result } from '../../domain/result.ts'
import type { Finding } from '../../domain/trade/finding.ts'
import type { Estimate, Measure } from '../../domain/trade/measure.ts'
import type { SourceId } from '../../domain/trade/sources.ts'
import type { Fields, Values } from './field.ts'

export type Shown =
  | {
      readonly is: 'value'
      readonly name: string
      readonly value: Measure | Estimate | string | number | boolean
      readonly digits?: number
    }
  | { readonly is: 'finding'; readonly finding: Finding }

/** What a calculation prints: its figures, what they rest on, and what to beware of. */
export type Answer = {
  readonly shown: readonly Shown[]
  readonly sources: readonly SourceId[]
  readonly notes?: readonly string[]
}

export type Calculation = {
  readonly name: string
  readonly group: string
  readonly says: string
  readonly fields: Fields
  /** A worked example: its `name=value` words. */
  readonly example: string
  readonly work: (values: Readonly<Record<string, unknown>>) => Result<Answer>
}

/** One calculation of the catalogue, its values typed by its fields. */
export const calculation = <F extends Fields>(
  name: string,
  says: string,
  fields: F,
  example: string,
  work: (values: Values<F>) => Result<Answer>,
): Omit<Calculation, 'group'> => ({ name, says, fields, example, work: work as Calculation['work'] })

export const group = (name: string, all: readonly Omit<Calculation, 'group'>[]): Calculation[] =>
  all.map((one) => ({ ...one, group: name }))

export const value = (
  name: string,
  it: Measure | Estimate | string | number | boolean | undefined,
  digits?: number,
): Shown[] =>
  it === undefined ? [] : [{ is: 'value', name, value: it, ...(digits === undefined ? {} : { digits }) }]

export const found = (...findings: readonly (Finding | undefined)[]): Shown[] =>
  findings.flatMap((finding) => (finding ? [{ is: 'finding', finding } as const] : []))

/** The answer that a result’s value makes, or its problem. */
export const answer = <T>(
  result: Result<T>,
  sources: readonly SourceId[] | ((value: T) => readonly SourceId[]),
  shown: (value: T) => readonly Shown[],
  notes?: readonly string[] | ((value: T) => readonly string[]),
): Result<Answer> => {
  if (!result.ok) return result
  const it = result.value
  return {
    ok: true,
    value: {
      shown: shown(it),
      sources: typeof sources === 'function' ? sources(it) : sources,
      ...(notes ? { notes: typeof notes === 'function' ? notes(it) : notes } : {}),
    },
  }
}
