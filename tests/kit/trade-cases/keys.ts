import { type Measure, measure } from '../../../api/domain/trade/measure.ts'
import type { TradeUnit } from '../../../api/domain/trade/unit-table.ts'
import type { Ratio } from '../../../api/domain/units.ts'
import { ratio } from '../../../api/domain/units.ts'

/** How the keys of cases spell units, the longest first: `wind_km_h` is a wind in km/h, not a time. */
const SPELLINGS: readonly (readonly [string, TradeUnit])[] = (
  [
    ['lb_ft2_h', 'lb/ft2/h'],
    ['kg_m2_h', 'kg/m2/h'],
    ['lb_per_gal', 'lb/gal'],
    ['lb_gal', 'lb/gal'],
    ['min_per_yd3', 'min/yd3'],
    ['gal_per_yd3', 'gal/yd3'],
    ['L_per_m3', 'L/m3'],
    ['lb_per_yd3', 'lb/yd3'],
    ['ft2_per_yd3', 'ft2/yd3'],
    ['gal_yd3', 'gal/yd3'],
    ['lb_ft3', 'lb/ft3'],
    ['lb_yd3', 'lb/yd3'],
    ['kg_m3', 'kg/m3'],
    ['ug_m3', 'ug/m3'],
    ['L_m3', 'L/m3'],
    ['yd3_h', 'yd3/h'],
    ['km_h', 'km/h'],
    ['C_h', 'degC.h'],
    ['m_s', 'm/s'],
    ['inHg', 'inHg'],
    ['hPa', 'hPa'],
    ['kPa', 'kPa'],
    ['MPa', 'MPa'],
    ['psi', 'psi'],
    ['psf', 'psf'],
    ['mph', 'mph'],
    ['pct', 'pct'],
    ['percent', 'pct'],
    ['days', 'd'],
    ['hours', 'h'],
    ['minutes', 'min'],
    ['yd3', 'yd3'],
    ['yd2', 'yd2'],
    ['ft3', 'ft3'],
    ['ft2', 'ft2'],
    ['in3', 'in3'],
    ['m3', 'm3'],
    ['m2', 'm2'],
    ['gal', 'gal'],
    ['min', 'min'],
    ['mb', 'hPa'],
    ['sm', 'mi'],
    ['mi', 'mi'],
    ['mm', 'mm'],
    ['cm', 'cm'],
    ['kt', 'kt'],
    ['km', 'km'],
    ['kg', 'kg'],
    ['lb', 'lb'],
    ['in', 'in'],
    ['ft', 'ft'],
    ['yd', 'yd'],
    ['F', 'degF'],
    ['C', 'degC'],
    ['h', 'h'],
    ['L', 'L'],
    ['m', 'm'],
  ] as const
).toSorted(([a], [b]) => b.length - a.length)

/** A key as its name and its unit: `strength_loss_MPa_min` is the name strength_loss_min in MPa. */
export type Key = { readonly name: string; readonly unit: TradeUnit | undefined }

export const readKey = (key: string): Key => {
  // A water–cement ratio ends in what else would be centimetres.
  if (/(?:^|_)w_cm$/.test(key)) return { name: key, unit: undefined }
  const tail = /_(?:min|max|mid|tol|about)$/.exec(key)?.[0] ?? ''
  // `least_min` ends in a unit as well as in a word for an end: the word counts where a unit stands before it.
  for (const [body, end] of [
    [key.slice(0, key.length - tail.length), tail],
    [key, ''],
  ] as const) {
    for (const [spelling, unit] of SPELLINGS) {
      if (body === spelling && end === '') return { name: '', unit }
      if (body.endsWith(`_${spelling}`)) return { name: body.slice(0, -spelling.length - 1) + end, unit }
    }
  }
  return { name: key, unit: undefined }
}

/** A number of JSON, exactly as its shortest decimal text says it. */
export const exactNumber = (value: number): Ratio => {
  const [digits = '0', exponent = '0'] = String(value).split('e')
  const [whole = '0', part = ''] = digits.split('.')
  const n = BigInt(whole + part) * (Number(exponent) > 0 ? 10n ** BigInt(exponent) : 1n)
  const d = 10n ** BigInt(part.length) * (Number(exponent) < 0 ? 10n ** BigInt(-Number(exponent)) : 1n)
  return ratio(n, d)
}

/** Other words for the same thing. */
const ALIASES: Readonly<Record<string, string>> = {
  concrete_temperature: 'concrete_temp',
  air_temperature: 'air_temp',
  relative_humidity: 'rh',
  humidity: 'rh',
  wind_speed: 'wind',
  dewpoint: 'dew_point',
  cementitious_materials: 'cementitious',
  cement_content: 'cementitious',
  max_joint_spacing: 'max_spacing',
  specified_fc: 'fc',
  f_c: 'fc',
  slab_thickness: 'slab',
  temperature: 'temp',
}

/** Values by name: numbers and lists of numbers as measures, all else as it stands. */
export type Args = ReadonlyMap<string, unknown>

export const readArgs = (inputs: Readonly<Record<string, unknown>>): Args =>
  new Map(
    Object.entries(inputs).map(([key, value]) => {
      const { name: said, unit } = readKey(key)
      const name = ALIASES[said] ?? said
      const read = (one: unknown): unknown =>
        typeof one === 'number' ? (measure(exactNumber(one), unit ?? 'one') satisfies Measure) : one
      return [name, Array.isArray(value) ? value.map(read) : read(value)]
    }),
  )
