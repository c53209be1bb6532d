import { createRequire } from 'node:module'
import { describe, expect, test } from 'vitest'
import { dimensionOf, inUnit, UNITS, type Unit } from '../../api/domain/units.ts'

/**
 * Every pair of our units by another hand: js-quantities 1.8, whose definitions are its own. It reckons in doubles and
 * knows some units to seven digits, so that results are compared to one part in a million.
 */
const Qty = createRequire(import.meta.url)('js-quantities') as (text: string) => {
  to: (unit: string) => { scalar: number }
}

const THEIRS: Readonly<Record<Unit, string>> = {
  in: 'in',
  ft: 'ft',
  mm: 'mm',
  m: 'm',
  mi: 'mi',
  km: 'km',
  ft2: 'ft2',
  m2: 'm2',
  yd3: 'yd3',
  m3: 'm3',
  gal: 'gal',
  L: 'L',
  'fl-oz': 'floz',
  mL: 'mL',
  min: 'min',
  h: 'h',
  degF: 'tempF',
  degC: 'tempC',
  pct: '%',
  psi: 'psi',
  MPa: 'MPa',
  mph: 'mph',
  'km/h': 'km/h',
  'm/s': 'm/s',
  lb: 'lb',
  kg: 'kg',
  'lb/yd3': 'lb/yd3',
  'kg/m3': 'kg/m3',
  'lb/ft3': 'lb/ft3',
  one: '',
}

const pairs = UNITS.flatMap((from) =>
  UNITS.filter((to) => to !== from && dimensionOf(to) === dimensionOf(from)).map((to) => [from, to] as const),
)

describe('[units] each pair of one dimension, by js-quantities', () => {
  test('[units] every unit but a bare number and a share has one beside it to be compared with', () => {
    const paired = new Set(pairs.flat())
    expect(UNITS.filter((unit) => !paired.has(unit))).toEqual(['pct', 'one'])
  })

  for (const [from, to] of pairs)
    test(`[units] ${from} in ${to}`, () => {
      for (const text of ['0.25', '1', '33', '145.2']) {
        const ours = inUnit({ text, unit: from }, to)
        if (!ours.ok) throw new Error(ours.problem.code)
        const { n, d } = ours.value
        const theirs = Qty(`${text} ${THEIRS[from]}`).to(THEIRS[to]).scalar
        expect(Math.abs(Number(n) / Number(d) - theirs)).toBeLessThanOrEqual(Math.abs(theirs) * 1e-6)
      }
    })

  test('[units] units of two dimensions are refused by both', () => {
    for (const from of UNITS)
      for (const to of UNITS) {
        if (dimensionOf(from) === dimensionOf(to)) continue
        expect(inUnit({ text: '1', unit: from }, to).ok).toBe(false)
        const pure: readonly Unit[] = ['pct', 'one']
        // There a share is a number as good as any.
        if (!pure.includes(from) || !pure.includes(to))
          expect(() => Qty(`1 ${THEIRS[from]}`).to(THEIRS[to]), `${from} ${to}`).toThrow()
      }
  })
})
