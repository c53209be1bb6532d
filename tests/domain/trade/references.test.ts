import { createRequire } from 'node:module'
import fc from 'fast-check'
import { parseMetar } from 'metar-taf-parser'
import { describe, expect, test } from 'vitest'
import { dewPoint, relativeHumidity, saturationPressure } from '../../../api/domain/trade/humidity.ts'
import { measure, toEstimate, toUnit } from '../../../api/domain/trade/measure.ts'
import { readMetar } from '../../../api/domain/trade/metar.ts'
import type { TradeUnit } from '../../../api/domain/trade/unit-table.ts'
import { type Ratio, ratio } from '../../../api/domain/units.ts'

// Neither of the two brings types.
const require = createRequire(import.meta.url)
type Psychrolib = {
  readonly SI: unknown
  readonly SetUnitSystem: (system: unknown) => void
  readonly GetRelHumFromTDewPoint: (t: number, dew: number) => number
  readonly GetTDewPointFromRelHum: (t: number, rh: number) => number
  readonly GetSatVapPres: (t: number) => number
}
const psychrolib = require('psychrolib') as Psychrolib
psychrolib.SetUnitSystem(psychrolib.SI)
const quantity = require('js-quantities') as (text: string) => { to: (unit: string) => { scalar: number } }

const SEED = { seed: 71352 }
const celsius = (t: number) => measure(ratio(BigInt(Math.round(t * 10)), 10n), 'degC')
const float = (r: Ratio) => Number(r.n) / Number(r.d)

/**
 * Psychrometrics by ASHRAE Handbook: Fundamentals (2017) ch. 1, whose curve is another than AZMET’s: they agree to half a
 * per cent of pressure over the weather that concrete is placed in.
 */
describe('[trade] humidity agrees with an independent psychrometric library (ASHRAE 2017)', () => {
  const temperature = fc.integer({ min: 10, max: 450 }).map((n) => n / 10)

  test('[trade] saturation pressure to half a per cent', () => {
    fc.assert(
      fc.property(temperature, (t) => {
        const ours = saturationPressure({ temperature: celsius(t) })
        const theirs = psychrolib.GetSatVapPres(t) / 100
        expect(ours.ok && Math.abs(ours.value.estimate / theirs - 1)).toBeLessThan(0.005)
      }),
      SEED,
    )
  })

  test('[trade] humidity to half a point, dew point to a fifth of a degree', () => {
    fc.assert(
      fc.property(temperature, fc.integer({ min: 10, max: 100 }), (t, percent) => {
        const dew = dewPoint({ temperature: celsius(t), humidity: measure(ratio(BigInt(percent)), 'pct') })
        if (!dew.ok) throw new Error(dew.problem.code)
        const ours = toEstimate(dew.value, 'degC').estimate
        const theirs = psychrolib.GetTDewPointFromRelHum(t, percent / 100)
        // Below freezing the library takes the dew point over ice.
        if (theirs > 0) expect(Math.abs(ours - theirs)).toBeLessThan(0.2)
        const at = Math.min(t, Math.round(Math.max(ours, 0.1) * 10) / 10)
        const rh = relativeHumidity({ temperature: celsius(t), dewPoint: celsius(at) })
        if (!rh.ok) throw new Error(rh.problem.code)
        expect(Math.abs(rh.value.estimate - 100 * psychrolib.GetRelHumFromTDewPoint(t, at))).toBeLessThan(0.5)
      }),
      SEED,
    )
  })
})

/** The library rounds gallons, pounds of force and its like to about eight digits. */
const PAIRS: readonly (readonly [TradeUnit, string, TradeUnit, string])[] = [
  ['in', 'in', 'mm', 'mm'],
  ['yd', 'yd', 'm', 'm'],
  ['mi', 'mi', 'km', 'km'],
  ['ft2', 'ft2', 'm2', 'm2'],
  ['yd2', 'yd2', 'ft2', 'ft2'],
  ['yd3', 'yd3', 'm3', 'm3'],
  ['ft3', 'ft3', 'L', 'l'],
  ['gal', 'gal', 'L', 'l'],
  ['fl-oz', 'floz', 'mL', 'ml'],
  ['lb', 'lb', 'kg', 'kg'],
  ['oz', 'oz', 'g', 'g'],
  ['ton-short', 'ton', 'kg', 'kg'],
  ['lb/ft3', 'lb/ft3', 'kg/m3', 'kg/m3'],
  ['lb/yd3', 'lb/yd3', 'kg/m3', 'kg/m3'],
  ['lb/gal', 'lb/gal', 'kg/L', 'kg/l'],
  ['psi', 'psi', 'kPa', 'kPa'],
  ['inHg', 'inHg', 'hPa', 'hPa'],
  ['mph', 'mph', 'km/h', 'kph'],
  ['kt', 'kt', 'm/s', 'm/s'],
  ['lb/ft2/h', 'lb/ft2*h', 'kg/m2/h', 'kg/m2*h'],
  ['gal/yd3', 'gal/yd3', 'L/m3', 'l/m3'],
  ['degF', 'tempF', 'degC', 'tempC'],
  ['diff-degF', 'degF', 'diff-degC', 'degC'],
]

describe('[trade] units agree with an independent library of quantities', () => {
  for (const [from, theirFrom, into, theirInto] of PAIRS)
    test(`[trade] ${from} to ${into}`, () => {
      for (const n of [1, 7, 37.5, 212]) {
        const m = measure(ratio(BigInt(n * 10), 10n), from)
        const ours = float(toUnit(m as never, into as never))
        const theirs = quantity(`${n} ${theirFrom}`).to(theirInto).scalar
        expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(2e-6 * Math.max(1, Math.abs(theirs)))
      }
    })
})

const two = (n: number) => String(n).padStart(2, '0')
const tempGroup = (t: number) => (t < 0 ? `M${two(-t)}` : two(t))
const tenths = (t: number) => `${t < 0 ? 1 : 0}${String(Math.abs(t)).padStart(3, '0')}`
const report = fc
  .record({
    station: fc.constantFrom('KSFO', 'KEWR', 'EPWA', 'CYYZ'),
    day: fc.integer({ min: 1, max: 31 }),
    hour: fc.nat(23),
    minute: fc.nat(59),
    from: fc.integer({ min: 1, max: 36 }),
    speed: fc.integer({ min: 1, max: 60 }),
    gust: fc.option(fc.integer({ min: 10, max: 90 }), { nil: undefined }),
    miles: fc.integer({ min: 1, max: 10 }),
    cover: fc.constantFrom('FEW', 'SCT', 'BKN', 'OVC'),
    base: fc.integer({ min: 1, max: 250 }),
    temperature: fc.integer({ min: -300, max: 450 }),
    spread: fc.nat(200),
    altimeter: fc.integer({ min: 2800, max: 3100 }),
    // The parser takes 9xx for 900 and more alone; the FAA’s key and AFMAN 15-111 from 500 on. Between, no station reports.
    slp: fc.oneof(fc.nat(499), fc.integer({ min: 900, max: 999 })),
  })
  .map((r) => {
    const dew = r.temperature - r.spread
    const gust = r.gust === undefined ? '' : `G${two(r.gust)}`
    const body = `${two(r.from * 10).padStart(3, '0')}${two(r.speed)}${gust}KT ${r.miles}SM ${r.cover}${String(r.base).padStart(3, '0')}`
    const air = `${tempGroup(Math.round(r.temperature / 10))}/${tempGroup(Math.round(dew / 10))} A${r.altimeter}`
    const remarks = `RMK AO2 SLP${String(r.slp).padStart(3, '0')} T${tenths(r.temperature)}${tenths(dew)}`
    return `${r.station} ${two(r.day)}${two(r.hour)}${two(r.minute)}Z ${body} ${air} ${remarks}`
  })

test('[trade] METAR reports are read as an independent parser reads them', () => {
  fc.assert(
    fc.property(report, (text) => {
      const ours = readMetar(text)
      if (!ours.ok) throw new Error(`${ours.problem.code}: ${text}`)
      const m = ours.value
      const theirs = parseMetar(text)
      const said = theirs.remarks.find(({ type }) => type === 'HourlyTemperatureDewPoint') as unknown as {
        temperature: number
        dewPoint: number
      }
      const pressure = theirs.remarks.find(({ type }) => type === 'SeaLevelPressure') as unknown as {
        pressure: number
      }
      expect([m.station, m.day, m.hour, m.minute]).toEqual([
        theirs.station,
        theirs.day,
        theirs.hour,
        theirs.minute,
      ])
      expect(m.wind?.from).toBe(theirs.wind?.degrees)
      expect(m.wind && float(m.wind.speed)).toBe(theirs.wind?.speed)
      expect(m.wind?.gust && float(m.wind.gust)).toBe(theirs.wind?.gust)
      expect(m.visibility && float(m.visibility.distance)).toBe(theirs.visibility?.value)
      expect(m.clouds.map(({ cover, base }) => [cover, base && float(base)])).toEqual(
        theirs.clouds.map(({ quantity: cover, height }) => [cover, height]),
      )
      expect(m.altimeter && float(m.altimeter)).toBeCloseTo(theirs.altimeter?.value ?? 0, 6)
      expect(m.temperature && float(m.temperature)).toBeCloseTo(said.temperature, 6)
      expect(m.dewPoint && float(m.dewPoint)).toBeCloseTo(said.dewPoint, 6)
      expect(m.remarks.seaLevelPressure && float(m.remarks.seaLevelPressure)).toBeCloseTo(
        pressure.pressure,
        6,
      )
      expect(m.unread).toEqual(['AO2'])
    }),
    SEED,
  )
})
