import type { Problem, Result } from '../../../api/domain/result.ts'
import type { In, Measure } from '../../../api/domain/trade/measure.ts'
import { type Dimension, dimensionOfUnit } from '../../../api/domain/trade/unit-table.ts'
import type { Args } from './keys.ts'

/** What a function gave, by the names that cases use; a measure in any unit of its dimension. */
export type Given = Readonly<Record<string, unknown>>

/**
 * Which function answers a case, by what the case asks and not by which case it is. A case is bound where all that it
 * states is `needs` or `may` (what a function ignores would be a wrong answer), and the function gives all that is expected.
 */
export type Binding = {
  /** The function of `api/domain` that is checked. */
  readonly function: string
  /** Names, or how a name looks where cases spell it in many ways. */
  readonly needs: readonly (string | RegExp)[]
  readonly may?: readonly string[]
  readonly when?: (args: Reader) => boolean
  readonly gives: (args: Reader) => Given | Refused
}
/** A function’s own problem, passed on. */
export type Refused = { readonly refused: Problem }
export const isRefused = (given: Given | Refused): given is Refused =>
  'refused' in given && Object.keys(given).length === 1

/** A case does not have the shape that a binding took it for. */
export class NotOfThisShape extends Error {}

export type Reader = ReturnType<typeof readerOf>
export const readerOf = (args: Args, source: string) => {
  const measureOf = (value: unknown, dimension: Dimension): Measure | undefined => {
    if (value === undefined || value === null) return undefined
    const m = value as Measure
    if (typeof m !== 'object' || !('unit' in m) || dimensionOfUnit(m.unit) !== dimension)
      throw new NotOfThisShape()
    return m
  }
  return {
    /** Which document a case goes by: where two differ, the function is told which one. */
    source,
    has: (name: string) => args.get(name) !== undefined && args.get(name) !== null,
    /** A measure of a dimension; undefined where the case says nothing or null. */
    of: <D extends Dimension>(name: string, dimension: D) =>
      measureOf(args.get(name), dimension) as In<D> | undefined,
    /** The first of several names that the case has. */
    either: <D extends Dimension>(names: readonly string[], dimension: D) =>
      names.map((name) => measureOf(args.get(name), dimension)).find((m) => m !== undefined) as
        | In<D>
        | undefined,
    /** The one whose name looks so. */
    like: <D extends Dimension>(pattern: RegExp, dimension: D) => {
      const name = [...args.keys()].find((one) => pattern.test(one))
      return (name === undefined ? undefined : measureOf(args.get(name), dimension)) as In<D> | undefined
    },
    list: <D extends Dimension>(name: string, dimension: D) => {
      const all = args.get(name)
      if (!Array.isArray(all)) throw new NotOfThisShape()
      return all.map((one) => measureOf(one, dimension) as In<D>)
    },
    text: (name: string) => {
      const value = args.get(name)
      return typeof value === 'string' ? value : undefined
    },
    number: (name: string) => {
      const m = measureOf(args.get(name), 'number')
      return m && Number(m.n) / Number(m.d)
    },
    raw: (name: string) => args.get(name),
  }
}

/** What a result gives by a function of its value, or its problem. */
export const given = <T>(result: Result<T>, name: (value: T) => Given): Given | Refused =>
  result.ok ? name(result.value) : { refused: result.problem }

/** A finding as the yes or no that a case has; neither where nothing could be compared. */
export const yes = (finding: { readonly verdict: string }): boolean | undefined =>
  finding.verdict === 'inside' ? true : finding.verdict === 'outside' ? false : undefined

/** One of the words of a case’s field, as the code that a function takes. */
export const pick = <T>(text: string | undefined, table: readonly (readonly [RegExp, T])[]): T => {
  const found = text === undefined ? undefined : table.find(([pattern]) => pattern.test(text))
  if (!found) throw new NotOfThisShape()
  return found[1]
}
