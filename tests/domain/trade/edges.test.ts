import { expect, test } from 'vitest'
import { freeMinutes, loadCharge } from '../../../api/domain/trade/charges.ts'
import { coldWeatherRow, placingLimit, protectionDays, sectionRow } from '../../../api/domain/trade/cold.ts'
import { silicaAverage } from '../../../api/domain/trade/dust.ts'
import { exposureLimits, type FreezeClass } from '../../../api/domain/trade/exposure.ts'
import { thumbEffect } from '../../../api/domain/trade/gallon-rule.ts'
import { dewPoint } from '../../../api/domain/trade/humidity.ts'
import { jointDepth, walkSpacing } from '../../../api/domain/trade/joints.ts'
import { plowmanStrength } from '../../../api/domain/trade/maturity.ts'
import { toEstimate } from '../../../api/domain/trade/measure.ts'
import { readRemarks } from '../../../api/domain/trade/metar-remarks.ts'
import { mixingAfterWater, samplingFindings } from '../../../api/domain/trade/sampling.ts'
import { slumpReading } from '../../../api/domain/trade/slump-test.ts'
import { finalCuring, leastSingleTest } from '../../../api/domain/trade/strength.ts'
import { slumpTolerance } from '../../../api/domain/trade/tolerance.ts'
import { m, shown, told } from './values.ts'

// Where one row of a table ends and the next begins; a case from memory only warns, so its figures are pinned here too.

/** Source: ASTM C94/C94M slump tolerances, from memory: a shared end is in the lower row. */
const SLUMPS: readonly (readonly ['target' | 'maximum', string, string, string])[] = [
  ['target', '2', '1.5', '2.5'],
  ['target', '2.25', '1.25', '3.25'],
  ['target', '4', '3', '5'],
  ['target', '4.25', '2.75', '5.75'],
  ['target', '0.25', '0', '0.75'],
  ['maximum', '3', '1.5', '3'],
  ['maximum', '3.25', '0.75', '3.25'],
]
for (const [form, specified, least, most] of SLUMPS)
  test(`[trade] a slump ordered as ${form} ${specified} in lies from ${least} to ${most}`, () => {
    const t = told(slumpTolerance({ specified: m(specified, 'in'), form }))
    expect([shown(t.least), shown(t.most)]).toEqual([least, most])
  })

/** Source: ACI 306R-88 table through Beall Fig. 3-37; where a shared end lies is our choice, said in the doc comment. */
const COLD: readonly (readonly [string, string, string, string])[] = [
  ['5', '31', '60', '55'],
  ['5', '30', '65', '55'],
  ['5', '0', '65', '55'],
  ['5', '-1', '70', '55'],
  ['12', '31', '55', '50'],
  ['36', '31', '50', '45'],
  ['72', '31', '50', '45'],
  ['73', '-1', '55', '40'],
]
for (const [section, air, mixed, placed] of COLD)
  test(`[trade] ${section} in of concrete in air of ${air} °F: mixed at ${mixed}, placed at ${placed} °F`, () => {
    const row = told(coldWeatherRow(told(sectionRow(m(section, 'in'))), m(air, 'degF')))
    expect([shown(row.leastMixed), shown(row.leastPlaced)]).toEqual([mixed, placed])
  })

test('[trade] C94’s least temperatures go down with the section', () => {
  const of = (section: string) => shown(told(placingLimit({ section: m(section, 'in'), rule: 'c94' })).least)
  expect(['11', '12', '36', '73'].map(of)).toEqual(['55', '50', '45', '40'])
})

test('[trade] days of protection by service and cement', () => {
  const of = (...asked: Parameters<typeof protectionDays>) => {
    const p = protectionDays(...asked)
    return [shown(p.againstFreezing), shown(p.forStrength)]
  }
  expect(of('partly-loaded-exposed', 'type-I-II')).toEqual(['3', '6'])
  expect(of('partly-loaded-exposed', 'type-III')).toEqual(['2', '4'])
})

/** Source: ACI 318-14/-19 Table 19.3.2.1, from memory. */
const CLASSES: readonly (readonly [FreezeClass, string | undefined, string])[] = [
  ['F0', undefined, '2500'],
  ['F1', '0.55', '3500'],
  ['F2', '0.45', '4500'],
  ['F3', '0.4', '5000'],
]
for (const [name, ratio, strength] of CLASSES)
  test(`[trade] class ${name} asks for ${ratio ?? 'no'} w/cm and ${strength} psi`, () => {
    const limits = exposureLimits({ class: name })
    expect([shown(limits.ratio?.most), shown(limits.strength.least)]).toEqual([ratio, strength])
  })

/** Source: ACI 318-19 §26.12.3.1 (b): 500 psi to 5,000, then a tenth (from memory). */
test('[trade] the least single test: 500 psi below up to 5,000, a tenth below above', () => {
  const of = (psi: string) => shown(leastSingleTest(m(psi, 'psi')))
  expect(['4000', '5000', '5010', '6000', '8000'].map(of)).toEqual(['3500', '4500', '4509', '5400', '7200'])
})

/** Source: ASTM C31/C31M: 73.5 ± 3.5 °F. */
test('[trade] final curing lies from 70 to 77 °F', () => {
  const of = (f: string) => told(finalCuring(m(f, 'degF'))).verdict
  expect(['69.9', '70', '77', '77.1'].map(of)).toEqual(['outside', 'inside', 'inside', 'outside'])
})

test('[trade] the slump test is for more than ½ in and less than 9: its own ends are outside', () => {
  const of = (inches: string) => told(slumpReading({ measured: m(inches, 'in') })).range.verdict
  expect(['0.5', '0.51', '8.99', '9'].map(of)).toEqual(['outside', 'inside', 'inside', 'outside'])
})

test('[trade] sampling: what is on its limit is inside, and what nobody recorded is not recorded', () => {
  const f = told(
    samplingFindings({
      toTests: m('5', 'min'),
      toMolding: m('15.5', 'min'),
      volume: m('28.32', 'L'),
      firstAt: m('9', 'pct'),
    }),
  )
  expect(f.map(({ of, verdict }) => [of, verdict])).toEqual([
    ['betweenPortions', 'not-recorded'],
    ['toTests', 'inside'],
    ['toMolding', 'outside'],
    ['volume', 'inside'],
    ['firstAt', 'outside'],
    ['lastAt', 'not-recorded'],
  ])
})

test('[trade] thirty turns after water are inside, twenty-nine outside, uncounted ones not recorded', () => {
  expect(told(mixingAfterWater(m('30', 'one'))).verdict).toBe('inside')
  expect(told(mixingAfterWater(m('29', 'one'))).verdict).toBe('outside')
  expect(told(mixingAfterWater(undefined)).verdict).toBe('not-recorded')
})

test('[trade] a walk is jointed as far apart as it is wide, and no farther than 6 ft', () => {
  const of = (feet: string) => shown(told(walkSpacing({ width: m(feet, 'ft') })))
  expect(['4', '6', '8'].map(of)).toEqual(['4', '6', '6'])
  expect(shown(told(jointDepth({ thickness: m('6', 'in'), tool: 'early-entry' })).least)).toBe('1')
})

/** Worked by hand from A + B log₁₀(M/1000): M = 10,000 gives 32 + 54 = 86 %. */
test('[trade] Plowman’s line at a round maturity', () => {
  expect(told(plowmanStrength(m('10000', 'degC.h'))).estimate).toBeCloseTo(86, 10)
  expect(told(plowmanStrength(m('10000', 'degC.h'), { a: 40, b: 10 })).estimate).toBeCloseTo(50, 10)
})

/** Worked by hand from AZMET’s formula: 25 °C and 50 % → B = 0.0551748, Td = 13.0930 ÷ 0.9448252 = 13.8576 °C. */
test('[trade] a dew point to four digits', () => {
  const d = told(dewPoint({ temperature: m('25', 'degC'), humidity: m('50', 'pct') }))
  const b = (Math.log(0.5) + (17.27 * 25) / 262.3) / 17.27
  expect(toEstimate(d, 'degC').estimate).toBeCloseTo((237.3 * b) / (1 - b), 9)
  expect(toEstimate(d, 'degC').estimate).toBeCloseTo(13.8576, 3)
})

test('[trade] a short load’s fee is nothing where the quote waives it, and nothing at the least load', () => {
  const of = (load: string, waived: boolean) =>
    shown(
      told(
        loadCharge({
          load: m(load, 'yd3'),
          pricePerYard: m('174', 'one'),
          least: m('4', 'yd3'),
          fee: { is: 'per-missing-yard', fee: m('40', 'one') },
          waived,
        }),
      ).shortLoad,
    )
  expect([of('2.5', false), of('2.5', true), of('4', false)]).toEqual(['60', '0', '0'])
})

/** Source: supplier C’s published terms: 15 min a yard up to 4 yd³, an hour above. */
test('[trade] free time by size: four yards still count by the yard', () => {
  const free = {
    is: 'by-size',
    smallUpTo: m('4', 'yd3'),
    each: m('14', 'min/yd3'),
    flatAbove: m('60', 'min'),
  } as const
  const of = (load: string) => shown(told(freeMinutes(m(load, 'yd3'), free)))
  expect(['3', '4', '4.25'].map(of)).toEqual(['42', '56', '60'])
})

/** Source: 29 CFR 1926.1153: the action level is met at 25, the limit exceeded above 50. */
test('[trade] silica: at 25 the action level is met; at 50 the limit is not yet exceeded', () => {
  const of = (ug: string) => {
    const d = told(silicaAverage([{ duration: m('8', 'h'), silica: m(ug, 'ug/m3') }]))
    return [d.atAction, d.abovePermissible]
  }
  expect(of('24.9')).toEqual([false, false])
  expect(of('25')).toEqual([true, false])
  expect(of('50')).toEqual([true, false])
  expect(of('50.1')).toEqual([true, true])
})

/** Source: Concrete Construction, adjusting slump in the field; adding water. */
test('[trade] the gallon rules, each in its own words and in proportion', () => {
  const one = told(thumbEffect({ added: m('2', 'gal/yd3') }))
  expect(
    [one.slump, one.strengthLossLeast, one.strengthLossMost, one.shrinkage, one.cement].map((x) => shown(x)),
  ).toEqual(['2', '300', '400', '20', '0.5'])
  const other = told(thumbEffect({ added: m('1', 'gal/yd3'), rule: 'gallon-with-air' }))
  expect([other.slump, other.strengthLossMost, other.airLeast, other.airMost].map((x) => shown(x))).toEqual([
    undefined,
    '400',
    '0.5',
    '1',
  ])
})

/** Source: AFMAN 15-111 and the FAA’s key: from 500 on 9xx.x, below 10xx.x. */
test('[trade] sea-level pressure on both sides of its turn', () => {
  const of = (group: string) => shown(readRemarks([group]).seaLevelPressure)
  expect(['SLP499', 'SLP500', 'SLP982', 'SLP013'].map(of)).toEqual(['1049.9', '950', '998.2', '1001.3'])
})
