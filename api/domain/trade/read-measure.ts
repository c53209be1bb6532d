import { fail, ok, type Result } from '../result.ts'
import { plus, type Ratio, readNumber } from '../units.ts'
import { type In, measure, toUnit } from './measure.ts'
import { type Dimension, type TradeUnit, type UnitOf, unitsOf } from './unit-table.ts'

export type MeasureProblem = 'number-unreadable' | 'unit-missing' | 'unit-other'

/** How units are written beside their own codes. A word counts within its dimension: “yards” of concrete are cubic. */
const SPELLINGS: { readonly [D in Dimension]?: Readonly<Record<string, UnitOf<D>>> } = {
  length: {
    '"': 'in',
    '″': 'in',
    inch: 'in',
    inches: 'in',
    "'": 'ft',
    '′': 'ft',
    foot: 'ft',
    feet: 'ft',
    yard: 'yd',
    yards: 'yd',
    mile: 'mi',
    miles: 'mi',
  },
  area: {
    sqft: 'ft2',
    'ft²': 'ft2',
    sf: 'ft2',
    'm²': 'm2',
    sqm: 'm2',
    'yd²': 'yd2',
    sqyd: 'yd2',
    'in²': 'in2',
  },
  volume: {
    yd: 'yd3',
    yard: 'yd3',
    yards: 'yd3',
    cy: 'yd3',
    'yd³': 'yd3',
    'ft³': 'ft3',
    cf: 'ft3',
    'm³': 'm3',
    gallon: 'gal',
    gallons: 'gal',
    l: 'L',
    liter: 'L',
    liters: 'L',
    ml: 'mL',
    floz: 'fl-oz',
  },
  time: {
    sec: 's',
    mins: 'min',
    minutes: 'min',
    hr: 'h',
    hrs: 'h',
    hours: 'h',
    hour: 'h',
    day: 'd',
    days: 'd',
    weeks: 'week',
  },
  temperature: { f: 'degF', '°f': 'degF', c: 'degC', '°c': 'degC', degf: 'degF', degc: 'degC', k: 'K' },
  'temperature-difference': { f: 'diff-degF', '°f': 'diff-degF', c: 'diff-degC', '°c': 'diff-degC' },
  'temperature-time': {
    ch: 'degC.h',
    '°ch': 'degC.h',
    '°c·h': 'degC.h',
    '°c.h': 'degC.h',
    'c.h': 'degC.h',
    'f.h': 'degF.h',
  },
  share: { '%': 'pct', percent: 'pct', '%rh': 'pct' },
  pressure: { mpa: 'MPa', kpa: 'kPa', hpa: 'hPa', mb: 'hPa', inhg: 'inHg' },
  speed: { kph: 'km/h', kmh: 'km/h', kn: 'kt', kts: 'kt', knots: 'kt', fpm: 'ft/min', mps: 'm/s' },
  mass: { lbs: 'lb', pounds: 'lb', ton: 'ton-short', tons: 'ton-short' },
  density: {
    pcf: 'lb/ft3',
    'lb/cf': 'lb/ft3',
    'lb/cy': 'lb/yd3',
    'lb/yd': 'lb/yd3',
    pcy: 'lb/yd3',
    'lb/ft³': 'lb/ft3',
    'lb/yd³': 'lb/yd3',
    'kg/m³': 'kg/m3',
    'kg/l': 'kg/L',
  },
  evaporation: { 'lb/ft²/h': 'lb/ft2/h', 'kg/m²/h': 'kg/m2/h' },
  'water-per-concrete': {
    'gal/yd': 'gal/yd3',
    'gal/cy': 'gal/yd3',
    'gal/yd³': 'gal/yd3',
    'l/m3': 'L/m3',
    'l/m³': 'L/m3',
  },
  'placing-rate': { 'yd/h': 'yd3/h', 'cy/h': 'yd3/h', 'yd³/h': 'yd3/h', 'm³/h': 'm3/h' },
  'time-per-concrete': { 'min/yd': 'min/yd3', 'min/cy': 'min/yd3', 'min/yd³': 'min/yd3', 'min/m³': 'min/m3' },
  dust: { 'µg/m3': 'ug/m3', 'µg/m³': 'ug/m3', 'ug/m³': 'ug/m3', 'mg/m³': 'mg/m3' },
}

const NUMBER = /^([-−]?)(\d+[ -]\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?)\s*/
const GLYPHS: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
}

/**
 * A measure as people write it: `87F`, `4 1/2 in`, `4-1/2"`, `12'6"`, `12 ft 6 in`, `50%`, `12mph`. A unit that is not
 * written is not guessed, but for plain numbers, which have none.
 * Units: the dimension’s, by code or common spelling → as written. Fails: `number-unreadable`, `unit-missing`,
 * `unit-other` (of no unit that this dimension has). Source: our choice of spellings; NIST SP 811 for the units.
 */
export const readMeasure = <D extends Dimension>(
  text: string,
  dimension: D,
): Result<In<D>, MeasureProblem> => {
  const plain = text
    .trim()
    .replaceAll(/(\d?)([¼½¾⅛⅜⅝⅞⅓⅔])/g, (_, digit: string, glyph: string) =>
      digit === '' ? (GLYPHS[glyph] ?? '') : `${digit} ${GLYPHS[glyph]}`,
    )
  const first = readOne(plain, dimension)
  if (!first.ok) return first
  const { number, unit, rest } = first.value
  if (rest === '') return ok(measure(number, unit) as In<D>)
  // Feet and inches: told in inches, which is exact.
  if (dimension !== 'length' || unit !== 'ft')
    return fail('unit-other', '', { text, units: unitsOf(dimension).join(' ') })
  const second = readOne(rest, 'length')
  if (!second.ok) return second
  if (second.value.unit !== 'in' || second.value.rest !== '' || number.n < 0n || second.value.number.n < 0n)
    return fail('number-unreadable', '', { text })
  return ok(measure(plus(toUnit(measure(number, 'ft'), 'in'), second.value.number), 'in') as In<D>)
}

type One = { readonly number: Ratio; readonly unit: TradeUnit; readonly rest: string }

const readOne = (text: string, dimension: Dimension): Result<One, MeasureProblem> => {
  const match = NUMBER.exec(text)
  if (!match) return fail('number-unreadable', '', { text })
  const digits = match[2]!.replace(/(\d)-(\d)/, '$1 $2')
  const number = readNumber(digits)
  if (!number.ok) return fail('number-unreadable', '', { text })
  const signed = match[1] === '' ? number.value : { n: -number.value.n, d: number.value.d }
  const after = text.slice(match[0].length)
  if (dimension === 'number') {
    const ends = after === '' || after === 'one'
    return ends
      ? ok({ number: signed, unit: 'one', rest: '' })
      : fail('unit-other', '', { text, units: 'none' })
  }
  // Up to the next number that begins apart from the unit: `ft 6 in`, `'6"`.
  const [word = '', rest = ''] = dimension === 'length' ? splitFeet(after) : [after.trim(), '']
  const units = unitsOf(dimension).join(' ')
  if (word === '') return fail('unit-missing', '', { text, units })
  const unit = unitOf(word, dimension)
  return unit ? ok({ number: signed, unit, rest }) : fail('unit-other', '', { text, units })
}

const splitFeet = (after: string): [string, string] => {
  const mark = /^(['′])\s*(\d.*)$/.exec(after) ?? /^(ft|feet|foot)\s*(\d.*)$/i.exec(after)
  return mark ? [mark[1]!, mark[2]!] : [after.trim(), '']
}

const unitOf = (word: string, dimension: Dimension): TradeUnit | undefined => {
  const own = unitsOf(dimension).find((unit) => unit === word)
  if (own) return own
  const spelling = SPELLINGS[dimension] as Readonly<Record<string, TradeUnit>> | undefined
  const low = word.toLowerCase().replaceAll(/\s/g, '')
  if (spelling && Object.hasOwn(spelling, low)) return spelling[low]
  // A code in other letters, where only one unit of the dimension has them: `MPH`, `PSI`, `Yd3`.
  const alike = unitsOf(dimension).filter((unit) => unit.toLowerCase() === low)
  return alike.length === 1 ? alike[0] : undefined
}
