import { expect, test } from 'vitest'
import * as charges from '../../../api/domain/trade/charges.ts'
import { minutesFrom, readWallTime } from '../../../api/domain/trade/clock.ts'
import { coolingFinding, placingLimit } from '../../../api/domain/trade/cold.ts'
import { pressureAir, volumeByDensity } from '../../../api/domain/trade/density.ts'
import { dischargeFinding } from '../../../api/domain/trade/discharge.ts'
import { evaporationFinding, evaporationRate, windAtSlab } from '../../../api/domain/trade/evaporation.ts'
import { exposureLimits } from '../../../api/domain/trade/exposure.ts'
import { finishingBand } from '../../../api/domain/trade/finishing-clock.ts'
import { hotFinding } from '../../../api/domain/trade/hot.ts'
import { readMetar } from '../../../api/domain/trade/metar.ts'
import { sawTimes, sawWindow } from '../../../api/domain/trade/saw-hours.ts'
import {
  coreFindings,
  strengthAcceptance,
  strengthTest,
  testsForDay,
} from '../../../api/domain/trade/strength.ts'
import { allowanceUse, ratiosByPart, totalWater } from '../../../api/domain/trade/water.ts'
import { m, shown, told } from './values.ts'

/** Load 2 of the demo pour (invented; worked by hand): 8 yd³ at 29.2 gal/yd³ and 580 lb/yd³, 12 gal, then 8 at about 5 yd³. */
const partsWith = (inDrum: string) =>
  told(
    ratiosByPart({
      load: m('8', 'yd3'),
      batchedWater: m('233.6', 'gal'),
      cementitious: m('580', 'lb/yd3'),
      additions: [
        { water: m('12', 'gal'), inDrum: m('8', 'yd3') },
        { water: m('8', 'gal'), inDrum: m(inDrum, 'yd3') },
      ],
    }),
  )

test('[trade] w/cm of each part of a load: what left the drum before is not changed by what goes in after', () => {
  const parts = partsWith('5')
  expect(parts.map(({ placed, ratio }) => [shown(placed), shown(ratio)])).toEqual([
    ['3', '0.441'],
    ['5', '0.464'],
  ])
  expect(shown(partsWith('6').at(-1)?.ratio)).toBe('0.461')
  expect(shown(partsWith('4').at(-1)?.ratio)).toBe('0.47')
})

test('[trade] a drum that holds more than was left of the load is a contradiction, by its field', () => {
  const asked = ratiosByPart({
    load: m('8', 'yd3'),
    batchedWater: m('233.6', 'gal'),
    cementitious: m('580', 'lb/yd3'),
    additions: [{ water: m('8', 'gal'), inDrum: m('9', 'yd3') }],
  })
  expect(asked).toMatchObject({ ok: false, problem: { code: 'contradiction', at: '/additions/0/inDrum' } })
})

test('[trade] a part of the water that nobody recorded is not zero', () => {
  const all = {
    metered: m('1500', 'lb'),
    freeMoisture: m('200', 'lb'),
    ice: m('0', 'lb'),
    wash: undefined,
    site: m('100', 'lb'),
  }
  expect(totalWater(all)).toMatchObject({ ok: false, problem: { code: 'missing', at: '/wash' } })
  expect(shown(told(totalWater({ ...all, wash: m('40', 'lb') })))).toBe('1840')
})

test('[trade] gallons against the ticket: 20 in, 16 allowed, 4 over', () => {
  const use = told(allowanceUse({ allowed: m('16', 'gal'), added: m('20', 'gal') }))
  expect([shown(use.left), shown(use.over)]).toEqual(['0', '4'])
})

/** Source: ASTM C94-21 §6.1.10; C94-98 §10.7. */
test('[trade] no limit is assumed; an older edition’s holds where it was chosen, and a stated one goes before it', () => {
  const elapsed = m('118', 'min')
  const verdict = (more: object) =>
    told(dischargeFinding({ event: 'discharge-ended', elapsed, ...more })).verdict
  expect(verdict({})).toBe('limit-not-stated')
  expect(verdict({ rule: 'C94-98' })).toBe('outside')
  expect(verdict({ rule: 'C94-13' })).toBe('outside')
  expect(verdict({ rule: 'C94-98', stated: { by: 'order', minutes: m('2', 'h') } })).toBe('inside')
  expect(verdict({ stated: { by: 'ticket', minutes: m('90', 'min') } })).toBe('outside')
})

test('[trade] revolutions count where a limit of them holds; read without one they are said to have none', () => {
  const of = (more: object) => {
    const f = told(dischargeFinding({ event: 'discharge-ended', elapsed: m('80', 'min'), ...more }))
    return [f.verdict, f.revolutions?.verdict]
  }
  const stated = { by: 'ticket', minutes: m('90', 'min') } as const
  expect(of({ rule: 'C94-98', revolutions: m('301', 'one') })).toEqual(['outside', 'outside'])
  expect(of({ rule: 'C94-98' })).toEqual(['inside', 'not-recorded'])
  expect(of({ stated, revolutions: m('301', 'one') })).toEqual(['inside', 'limit-not-stated'])
  expect(of({ stated: { ...stated, revolutions: m('250', 'one') }, revolutions: m('251', 'one') })).toEqual([
    'outside',
    'outside',
  ])
  expect(of({ revolutions: m('301', 'one') })).toEqual(['limit-not-stated', 'limit-not-stated'])
})

test('[trade] a waiver stands beside the finding with who and when, and changes no verdict', () => {
  const waiver = { by: 'Curt', at: '2026-04-21T09:40-05:00', placeableWithoutWater: false }
  const stated = { by: 'ticket', minutes: m('90', 'min') } as const
  const f = told(dischargeFinding({ event: 'discharge-ended', elapsed: m('118', 'min'), stated, waiver }))
  expect([f.verdict, f.waiver?.by, f.waivable, f.minutes.limit?.source]).toEqual([
    'outside',
    'Curt',
    false,
    'ticket',
  ])
})

/** The nights on which clocks change in Chicago in 2026: 8 March and 1 November. Source: IANA time zone database. */
const NIGHTS: readonly (readonly [string, string, string, string])[] = [
  ['across midnight', '2026-06-02T23:50', '2026-06-03T00:35', '45'],
  ['over the hour that is skipped', '2026-03-08T01:30', '2026-03-08T03:10', '40'],
  ['over the hour that comes twice', '2026-11-01T00:30', '2026-11-01T02:10', '160'],
]
for (const [name, from, until, minutes] of NIGHTS)
  test(`[trade] minutes ${name}`, () => {
    const [a, b] = [from, until].map((text) => told(readWallTime('/at', text, 'America/Chicago')))
    expect(shown(told(minutesFrom(a, b)))).toBe(minutes)
  })

test('[trade] of a clock time that a night skips or has twice, nothing is guessed', () => {
  const read = (text: string, zone: string | undefined = 'America/Chicago') => readWallTime('/at', text, zone)
  expect(read('2026-03-08T02:30')).toMatchObject({ problem: { code: 'time-skipped' } })
  expect(read('2026-11-01T01:30')).toMatchObject({
    problem: { code: 'time-doubled', evidence: { first: '-05:00', second: '-06:00' } },
  })
  expect(read('2026-11-01T01:30-06:00')).toMatchObject({ ok: true })
  expect(read('2026-02-30T10:00')).toMatchObject({ problem: { code: 'time-unreadable' } })
  expect(read('2026-06-01T10:00', 'Tern/Court')).toMatchObject({ problem: { code: 'zone-unknown' } })
  expect(minutesFrom('2026-06-01T10:00-05:00', '2026-06-01T09:00-05:00')).toMatchObject({
    problem: { code: 'backwards' },
  })
})

/** The demo day (invented weather), by Uno’s US form; 66 °F was the concrete’s last measured temperature. */
const HOURS: readonly (readonly [string, string, string, string, string])[] = [
  ['66', '60', '37', '16', '0.186'],
  ['66', '62', '34', '16', '0.186'],
  ['66', '64', '32', '15', '0.174'],
  ['66', '65', '31', '14', '0.164'],
  ['68', '62', '34', '16', '0.206'],
]
for (const [concrete, air, humidity, wind, rate] of HOURS)
  test(`[trade] evaporation at ${concrete}/${air} °F, ${humidity} %, ${wind} mph is ${rate} lb/ft²/h`, () => {
    const e = evaporationRate({
      concrete: m(concrete, 'degF'),
      air: m(air, 'degF'),
      humidity: m(humidity, 'pct'),
      wind: m(wind, 'mph'),
    })
    expect(told(e).rate.estimate.toFixed(3)).toBe(rate)
    expect(evaporationFinding(told(e).rate, 'plain')).toMatchObject({ near: true })
    expect(evaporationFinding(told(e).rate, 'silica-fume').verdict).toBe('outside')
  })

test('[trade] a negative rate is returned, and says that water settles', () => {
  const e = told(
    evaporationRate({
      concrete: m('50', 'degF'),
      air: m('75', 'degF'),
      humidity: m('95', 'pct'),
      wind: m('5', 'mph'),
    }),
  )
  expect(e.rate.estimate).toBeLessThan(0)
  expect(e.direction).toBe('settles')
})

test('[trade] a station’s wind is lower at the slab, and marked as an estimate', () => {
  const w = told(windAtSlab({ wind: m('10', 'mph') }))
  expect([w.wind.estimate.toFixed(2), w.isEstimate]).toEqual(['6.52', true])
})

/** Supplier’s terms of the demo (invented): 6 free minutes a yard, then $2.50 a minute. */
test('[trade] waiting: 47 of 48 minutes are free; 22 of 15 cost 17.50', () => {
  const free = { is: 'per-yard', each: m('6', 'min/yd3') } as const
  const rate = { each: m('1', 'min'), charge: m('2.50', 'one'), part: 'pro-rated' } as const
  const of = (load: string, onSite: string) => {
    const u = told(charges.unloadingCharge({ load: m(load, 'yd3'), onSite: m(onSite, 'min'), free, rate }))
    return [shown(u.free), shown(u.beyond), shown(u.charge)]
  }
  expect(of('8', '47')).toEqual(['48', '0', '0'])
  expect(of('2.5', '22')).toEqual(['15', '7', '17.5'])
})

test('[trade] a surcharge counts on both its end days and on no other', () => {
  const terms = { each: 'yard', amount: m('6', 'one'), until: '2026-04-15' } as const
  const on = (day: string) => charges.surcharge({ load: m('8', 'yd3'), on: day, terms })
  expect([shown(told(on('2026-04-15'))), shown(told(on('2026-04-16')))]).toEqual(['48', '0'])
  expect(on('2026-02-30')).toMatchObject({ problem: { code: 'contradiction', at: '/on' } })
})

test('[trade] sums are rounded as named: halves up, halves to even, or not', () => {
  const sum = m('0.125', 'one')
  const ways = (['half-up', 'half-even', 'none'] as const).map((way) => shown(charges.roundAmount(sum, way)))
  expect(ways).toEqual(['0.13', '0.12', '0.125'])
  expect(shown(charges.roundAmount(m('-0.125', 'one')), 2)).toBe('-0.13')
  expect(shown(told(charges.taxOn({ taxable: m('750.26', 'one'), rate: m('6.5', 'pct') })))).toBe('48.77')
})

test('[trade] two breaks of the demo are a test; with one test there is no mean of three', () => {
  const t = told(
    strengthTest({ cylinders: [m('5010', 'psi'), m('5090', 'psi')], size: '6x12', age: m('28', 'd') }),
  )
  expect([shown(t.mean), t.forAcceptance]).toEqual(['5050', true])
  const a = told(strengthAcceptance({ specified: m('4500', 'psi'), tests: [t.mean] }))
  expect([a.criterionA, a.criterionB, a.overall]).toEqual(['not-recorded', 'inside', 'not-recorded'])
  expect(
    told(strengthTest({ cylinders: [m('5010', 'psi'), m('5090', 'psi')], size: '4x8', age: m('28', 'd') }))
      .forAcceptance,
  ).toBe(false)
})

/** Source: ACI 318-19 §26.12.4: 85 % of f′c in the mean, 75 % each. */
test('[trade] cores: the mean and each one against its own least', () => {
  const of = (...cores: string[]) =>
    told(coreFindings({ specified: m('4000', 'psi'), cores: cores.map((c) => m(c, 'psi')) }))
  expect(of('3400', '3400', '3400').verdict).toBe('inside')
  expect(of('3399', '3400', '3400').verdict).toBe('outside')
  expect(of('2999', '4000', '4000').singles.map(({ verdict }) => verdict)).toEqual([
    'outside',
    'inside',
    'inside',
  ])
  expect(coreFindings({ specified: m('4000', 'psi'), cores: [m('3400', 'psi')] })).toMatchObject({
    problem: { code: 'out-of-range', at: '/cores' },
  })
})

test('[trade] strength tests of a day: one, or by volume, or by area, whichever is most', () => {
  const of = (volume: string, area: string) =>
    told(testsForDay({ volume: m(volume, 'yd3'), area: m(area, 'ft2') }))
  expect([of('18', '1236'), of('151', '1236'), of('100', '12000')]).toEqual([1, 2, 3])
})

test('[trade] air: the aggregate’s own is taken off, and can’t be more than was read', () => {
  expect(shown(told(pressureAir({ apparent: m('6.9', 'pct'), correction: m('0.5', 'pct') })))).toBe('6.4')
  expect(pressureAir({ apparent: m('0.4', 'pct'), correction: m('0.5', 'pct') })).toMatchObject({
    problem: { code: 'contradiction' },
  })
})

test('[trade] a load’s volume by density rests on three tests', () => {
  const of = (...densities: string[]) =>
    told(volumeByDensity({ batch: m('31640', 'lb'), densities: densities.map((d) => m(d, 'lb/ft3')) }))
  expect([shown(of('145', '145.2', '145.4').volume, 2), of('145', '145.2', '145.4').enough]).toEqual([
    '8.07',
    true,
  ])
  expect(of('145.2').enough).toBe(false)
})

test('[trade] temperatures by edition: each names its own', () => {
  const place = (rule: '306r-88' | 'c94' | 'ufgs-03301a') => {
    const l = told(placingLimit({ section: m('4', 'in'), rule }))
    return [shown(l.least), shown(l.most), l.source]
  }
  expect([place('306r-88'), place('c94'), place('ufgs-03301a')]).toEqual([
    ['55', '75', '306r-88'],
    ['55', undefined, 'c94-cold'],
    ['55', '75', 'ufgs-03301a'],
  ])
  const hot = (rule: '301-20' | 'older') => told(hotFinding({ concrete: m('92', 'degF'), rule }))
  expect([hot('301-20').verdict, hot('older').verdict, hot('older').limit?.source]).toEqual([
    'inside',
    'outside',
    'hot-older',
  ])
  expect(shown(exposureLimits({ class: 'F3' }).ratio?.most)).toBe('0.4')
  expect(shown(exposureLimits({ class: 'F3', plain: true }).ratio?.most)).toBe('0.45')
  expect(shown(exposureLimits({ class: 'F1', table: 'PCA EB001 Table 11-3' }).ratio?.most)).toBe('0.45')
  expect(
    told(coolingFinding({ section: m('5', 'in'), from: m('66', 'degF'), until: m('15', 'degF') })).verdict,
  ).toBe('outside')
})

test('[trade] saw and finishing are bands, on the clock across a night that changes it', () => {
  const window = told(sawWindow({ tool: 'conventional' }))
  expect(told(sawTimes(window, '2026-10-31T20:00:00.000-05:00', 'America/Chicago'))).toEqual({
    from: '2026-11-01T00:00:00.000-05:00',
    to: '2026-11-01T07:00:00.000-06:00',
  })
  expect(sawWindow({ tool: 'early-entry', rule: 'csa-a23.1-94' })).toMatchObject({
    problem: { code: 'contradiction' },
  })
  const band = told(finishingBand({ temperature: m('65', 'degF') }))
  expect([shown(band.from), shown(band.about), shown(band.to)]).toEqual(['3.5', '7', '10.5'])
  expect(finishingBand({ temperature: m('20', 'degF') })).toMatchObject({
    problem: { code: 'out-of-range', evidence: { given: '20 degF', least: '30 degF' } },
  })
})

/** Odd reports; each is read or refused by a code, and what was not understood is kept. */
const REPORTS: readonly (readonly [string, object])[] = [
  ['', { problem: { code: 'missing' } }],
  ['KSFO', { problem: { code: 'no-time' } }],
  ['KSFO 321756Z 26016KT', { problem: { code: 'no-time' } }],
  ['ksfo 240156z 26016kt 10sm clr 13/08 a3006', { ok: true, value: { station: 'KSFO' } }],
  ['METAR KSFO 240156Z NIL', { problem: { code: 'not-there' } }],
  ['KSFO 240156Z XYZZY', { problem: { code: 'no-report' } }],
  [
    'KSFO 240156Z AUTO 00000KT 1 1/2SM -RA BR OVC004 M02/M04 A2992 GARBLED=',
    { ok: true, value: { automatic: true, wind: { from: 'calm' }, unread: ['GARBLED'] } },
  ],
  [
    'EPWA 251800Z VRB02MPS 240V300 CAVOK M00/M05 Q0999 NOSIG',
    { ok: true, value: { wind: { from: 'variable' }, unread: [] } },
  ],
  [
    'KSFO 240156Z 26016KT M1/4SM FG VV001 ///// A3006',
    { ok: true, value: { visibility: { is: 'less-than' }, temperature: undefined, unread: ['/////'] } },
  ],
]
for (const [text, expected] of REPORTS)
  test(`[trade] METAR “${text}”`, () => expect(readMetar(text)).toMatchObject(expected))
