import { type Estimate, type Measure, toEstimate, toUnit } from '../../../api/domain/trade/measure.ts'
import { dimensionOfUnit, type TradeUnit } from '../../../api/domain/trade/unit-table.ts'
import { type Binding, isRefused, NotOfThisShape, readerOf } from './bind.ts'
import { BINDINGS } from './bindings/all.ts'
import type { Outcome, ReferenceCase, Tolerance } from './case.ts'
import { readArgs, readKey } from './keys.ts'

/** Runs one case against the function that its meaning asks for. */
export const runCase = (one: ReferenceCase): Outcome => {
  const args = readArgs(one.inputs)
  const reader = readerOf(args, one.source ?? '')
  let refused: Outcome | undefined
  for (const binding of BINDINGS) {
    if (!fits(binding, args)) continue
    try {
      if (binding.when && !binding.when(reader)) continue
      const out = binding.gives(reader)
      if (isRefused(out)) {
        refused ??= outcome(one, 'fail', { problem: out.refused }, binding.function)
        continue
      }
      const got = gotOf(one.expected, out)
      if (got) return compareAll(one, got, binding.function)
    } catch (error) {
      if (!(error instanceof NotOfThisShape)) throw error
    }
  }
  return refused ?? { id: one.id, status: 'no function', got: null, expected: one.expected }
}

const fits = ({ needs, may = [] }: Binding, args: ReadonlyMap<string, unknown>): boolean => {
  const names = [...args.keys()]
  const is = (need: string | RegExp, name: string) =>
    typeof need === 'string' ? need === name : need.test(name)
  return (
    needs.every((need) => names.some((name) => is(need, name))) &&
    names.every((name) => may.includes(name) || needs.some((need) => is(need, name)))
  )
}

const compareAll = (one: ReferenceCase, got: Record<string, unknown>, name: string): Outcome => {
  const same = Object.entries(one.expected).every(([key, want]) =>
    isClose(want, got[key], toleranceOf(one.tolerance, key)),
  )
  return outcome(one, same ? 'pass' : 'fail', got, name)
}

/** A case from memory that disagrees warns: the memory may be what is wrong. */
const outcome = (one: ReferenceCase, status: 'pass' | 'fail', got: unknown, name: string): Outcome => ({
  id: one.id,
  status: status === 'fail' && one.basis === 'memory' ? 'warn' : status,
  got,
  expected: one.expected,
  function: name,
})

/** All that is expected, in the case’s own keys and units; undefined where the function doesn’t give it. */
const gotOf = (
  expected: Readonly<Record<string, unknown>>,
  out: Readonly<Record<string, unknown>>,
): Record<string, unknown> | undefined => {
  const got: Record<string, unknown> = {}
  for (const key of Object.keys(expected)) {
    const { name, unit } = readKey(key)
    const whole = out[key] !== undefined
    const value = whole ? out[key] : out[name]
    // What a function knows of and does not give here is what a case calls null.
    if (value === undefined && expected[key] === null && (key in out || name in out)) got[key] = null
    if (value === undefined && got[key] !== null) return undefined
    if (value === undefined) continue
    // Under the key’s own whole name a function says it in the key’s own unit already.
    const shown = inUnitOf(value, whole ? undefined : unit)
    if (shown === undefined) return undefined
    got[key] = shown
  }
  return got
}

const inUnitOf = (value: unknown, unit: TradeUnit | undefined): unknown => {
  if (Array.isArray(value)) {
    const all = value.map((one) => inUnitOf(one, unit))
    return all.includes(undefined) ? undefined : all
  }
  if (typeof value !== 'object' || value === null) return value
  if ('estimate' in value) {
    const e = value as Estimate
    return toEstimate(e as Estimate<TradeUnit>, alike(e.unit, unit) ?? e.unit).estimate
  }
  if ('n' in value && 'unit' in value) {
    const m = value as Measure
    const into = alike(m.unit, unit)
    if (into === undefined) return undefined
    const { n, d } = toUnit(m, into)
    return Number(n) / Number(d)
  }
  return value
}

/** The unit to tell a value in; a key that names °F for a difference means a difference. */
const alike = (own: TradeUnit, asked: TradeUnit | undefined): TradeUnit | undefined => {
  if (asked === undefined) return own
  if (dimensionOfUnit(own) === dimensionOfUnit(asked)) return asked
  if (own === 'diff-degF' && asked === 'degF') return own
  return undefined
}

type Allowed = { readonly abs: number; readonly rel: number }
const toleranceOf = (tolerance: Tolerance, key: string): Allowed => {
  // Exact numbers pass through doubles on their way to be compared.
  if (tolerance === 'exact') return { abs: 0, rel: 1e-12 }
  const of = (t: number | Readonly<Record<string, number>>) => (typeof t === 'number' ? t : (t[key] ?? 0))
  // A printed tolerance is decimal; so many ulps more keep its own end inside.
  return 'abs' in tolerance
    ? { abs: of(tolerance.abs) * (1 + 1e-9), rel: 1e-12 }
    : { abs: 0, rel: of(tolerance.rel) }
}

const isClose = (want: unknown, got: unknown, { abs, rel }: Allowed): boolean => {
  if (typeof want === 'number' && typeof got === 'number')
    return Math.abs(want - got) <= Math.max(abs, rel * Math.abs(want))
  if (Array.isArray(want) && Array.isArray(got))
    return want.length === got.length && want.every((one, i) => isClose(one, got[i], { abs, rel }))
  return JSON.stringify(want) === JSON.stringify(got)
}
