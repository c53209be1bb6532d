import { readFileSync } from 'node:fs'
import { UcumLhcUtils } from '@lhncbc/ucum-lhc'
import { describe, expect, test } from 'vitest'
import { KINDS, VOCABULARY } from '../../../api/domain/entry/registry.ts'
import { type Dimension, dimensionOf, inUnit, UNITS, type Unit } from '../../../api/domain/units.ts'
import { FINDING_CODES } from '../../../api/verify/findings.ts'

const SPEC = readFileSync(new URL('../../../api/domain/log/SPEC.md', import.meta.url), 'utf8')
/** The text of one rule, to the next one. */
const rule = (id: string): string => {
  const from = SPEC.indexOf(`- **${id}** `)
  if (from < 0) throw new Error(`there is no rule ${id}`)
  const [text] = SPEC.slice(from).split(/\n(?:- \*\*L\d+\*\*|##) /)
  return text!
}

/** `in` → `[in_i]`, … as the rule's table has them. */
const codes = new Map(
  [...rule('L10').matchAll(/\| `([^`]+)`\s*\| `([^`]+)`\s*(?=\|)/g)].map(([, ours, theirs]) => [
    ours!,
    theirs!,
  ]),
)

const utils = UcumLhcUtils.getInstance()

/** UCUM code of the unit in which our conversions are exact, by dimension. */
const SI: Readonly<Record<Dimension, { ucum: string; ours: Unit }>> = {
  length: { ucum: 'm', ours: 'm' },
  area: { ucum: 'm2', ours: 'm2' },
  volume: { ucum: 'm3', ours: 'm3' },
  time: { ucum: 'min', ours: 'min' },
  temperature: { ucum: 'Cel', ours: 'degC' },
  share: { ucum: '%', ours: 'pct' },
  pressure: { ucum: 'MPa', ours: 'MPa' },
  speed: { ucum: 'm/s', ours: 'm/s' },
  mass: { ucum: 'kg', ours: 'kg' },
  density: { ucum: 'kg/m3', ours: 'kg/m3' },
  number: { ucum: '1', ours: 'one' },
}

describe('[L10] each unit code has its UCUM code. Source: UCUM 2.1, by the tables of @lhncbc/ucum-lhc', () => {
  test('[L10] the table lists every unit that entries may carry, and no other', () => {
    expect([...codes.keys()].sort()).toEqual([...UNITS].sort())
  })

  for (const unit of UNITS)
    test(`[L10] ${unit} is of UCUM, and is as long, heavy or warm there as here`, () => {
      const code = codes.get(unit)!
      expect(utils.validateUnitString(code)).toMatchObject({ status: 'valid', ucumCode: code })
      const { ucum: si, ours } = SI[dimensionOf(unit)]
      for (const text of ['1', '37', '212']) {
        const there = code === si ? Number(text) : utils.convertUnitTo(code, Number(text), si).toVal
        const here = inUnit({ text, unit }, ours)
        if (!here.ok) throw new Error(here.problem.code)
        // Their arithmetic is in floating point, ours is exact.
        expect(there).toBeCloseTo(Number(here.value.n) / Number(here.value.d), 9)
      }
    })
})

const named = (text: string): string[] => [...text.matchAll(/`([a-z]+\.[a-z]+)`/g)].map(([, kind]) => kind!)

describe('[L50] [L54] the specification names each kind by the release that brought it', () => {
  const all = Object.entries(KINDS)
  const since = (release: number) => all.filter(([, spec]) => spec.since === release).map(([kind]) => kind)
  test('[L50] release 1', () => expect(named(rule('L50')).sort()).toEqual(since(1).sort()))
  test('[L54] release 2, and what it widens', () => {
    const [brought, widened] = rule('L54').split('It widens')
    expect(named(brought!).sort()).toEqual(since(2).sort())
    const wider = all.filter(([, spec]) => spec.shapes.length > 1).map(([kind]) => kind)
    expect(named(widened!.split(':')[0]!).sort()).toEqual(wider.sort())
    expect(VOCABULARY).toBe(2)
  })
  test('[L6] every kind is two words of lower-case letters with a point between', () => {
    for (const [kind] of all) expect(kind).toMatch(/^[a-z]+\.[a-z]+$/)
  })
})

test('[L41] the specification names each code that a check gives', () => {
  expect(FINDING_CODES.filter((code) => !SPEC.includes(`\`${code}\``))).toEqual([])
})
