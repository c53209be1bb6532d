import { dischargeFinding } from '../../api/domain/trade/discharge.ts'
import { evaporationRate } from '../../api/domain/trade/evaporation.ts'
import { relativeHumidity } from '../../api/domain/trade/humidity.ts'
import { nurseSaul } from '../../api/domain/trade/maturity.ts'
import { exactly, toUnit } from '../../api/domain/trade/measure.ts'
import { readMetar } from '../../api/domain/trade/metar.ts'
import { layOutRectangle } from '../../api/domain/trade/panels.ts'
import { readMeasure } from '../../api/domain/trade/read-measure.ts'
import { slab } from '../../api/domain/trade/volume.ts'
import { ratiosByPart } from '../../api/domain/trade/water.ts'
import type { Row } from './table.ts'

const REPORT = 'KSFO 240156Z 26016G22KT 9SM BKN012 13/08 A3006 RMK AO2 SLP179 T01280083'
const weather = {
  concrete: exactly('87', 'degF'),
  air: exactly('80', 'degF'),
  humidity: exactly('50', 'pct'),
  wind: exactly('12', 'mph'),
}
const sides = { length: exactly('40', 'ft'), width: exactly('20', 'ft'), thickness: exactly('5', 'in') }
const load = {
  load: exactly('8', 'yd3'),
  batchedWater: exactly('233.6', 'gal'),
  cementitious: exactly('580', 'lb/yd3'),
  additions: [
    { water: exactly('12', 'gal'), inDrum: exactly('8', 'yd3') },
    { water: exactly('8', 'gal'), inDrum: exactly('5', 'yd3') },
  ],
}
const stated = { by: 'ticket', minutes: exactly('90', 'min') } as const
const intervals = Array.from({ length: 24 }, () => ({
  duration: exactly('1', 'h'),
  temperature: exactly('18', 'degC'),
}))
const plainRate = (tc: number, ta: number, r: number, v: number) =>
  (tc ** 2.5 - r * ta ** 2.5) * (1 + 0.4 * v) * 1e-6
const minutes = exactly('118', 'min')
const yards = exactly('8', 'yd3')
const layout = { length: sides.length, width: sides.width, mostSpacing: exactly('10', 'ft') }
const air = { temperature: exactly('25', 'degC'), dewPoint: exactly('15', 'degC') }

/** Each hot function beside the same sum in plain floats, with no ranges, units or sources. */
export const TRADE_ROWS: readonly Row[] = [
  { name: 'slab', work: () => slab(sides), plain: () => (40 * 20 * 5) / 324 },
  { name: 'one unit in another', work: () => toUnit(yards, 'm3'), plain: () => 8 * 0.764554857984 },
  { name: 'evaporation', work: () => evaporationRate(weather), plain: () => plainRate(87, 80, 0.5, 12) },
  {
    name: 'humidity',
    work: () => relativeHumidity(air),
    plain: () => Math.exp((17.27 * 15) / 252.3) / Math.exp((17.27 * 25) / 262.3),
  },
  {
    name: 'w/cm of a load’s parts',
    work: () => ratiosByPart(load),
    plain: () => [((233.6 + 12) / 8) * (8.34 / 580), ((233.6 + 12) / 8 + 8 / 5) * (8.34 / 580)],
  },
  {
    name: 'discharge against a limit',
    work: () => dischargeFinding({ event: 'discharge-ended', elapsed: minutes, stated }),
    plain: () => 118 <= 90,
  },
  {
    name: 'maturity of 24 hours',
    work: () => nurseSaul({ intervals }),
    plain: () => Array.from({ length: 24 }, () => 18).reduce((all, t) => all + t, 0),
  },
  {
    name: 'panels of a drive',
    work: () => layOutRectangle(layout),
    plain: () => Math.ceil(40 / 10) * Math.ceil(20 / 10),
  },
  { name: 'a METAR report', work: () => readMetar(REPORT), plain: () => REPORT.split(' ') },
  {
    name: 'a measure’s text',
    work: () => readMeasure('4-1/4in', 'length'),
    plain: () => Number.parseFloat('4.25in'),
  },
]
