import type { Finding, Limit } from '../../domain/trade/finding.ts'
import { type Estimate, type Measure, toEstimate, toUnit } from '../../domain/trade/measure.ts'
import { SOURCES, type SourceId, showSource } from '../../domain/trade/sources.ts'
import type { TradeUnit } from '../../domain/trade/unit-table.ts'
import { showFixed, showNumber } from '../../domain/units.ts'
import type { Answer, Shown } from './calculation.ts'

/** Each unit’s sign, the digits it is shown to, and the unit of the other system that stands in brackets beside it. */
const LOOKS: { readonly [U in TradeUnit]?: readonly [sign: string, digits: number, other?: TradeUnit] } = {
  in: ['in', 3, 'mm'],
  ft: ['ft', 2, 'm'],
  yd: ['yd', 2, 'm'],
  mi: ['mi', 2, 'km'],
  mm: ['mm', 1, 'in'],
  cm: ['cm', 2, 'in'],
  m: ['m', 3, 'ft'],
  km: ['km', 2, 'mi'],
  in2: ['in²', 2],
  ft2: ['ft²', 2, 'm2'],
  yd2: ['yd²', 2, 'm2'],
  m2: ['m²', 2, 'ft2'],
  ft3: ['ft³', 2, 'm3'],
  yd3: ['yd³', 2, 'm3'],
  m3: ['m³', 3, 'yd3'],
  gal: ['gal', 2, 'L'],
  L: ['L', 1, 'gal'],
  min: ['min', 1],
  h: ['h', 2],
  d: ['days', 1],
  degF: ['°F', 1, 'degC'],
  degC: ['°C', 1, 'degF'],
  'diff-degF': ['°F of difference', 1, 'diff-degC'],
  'diff-degC': ['°C of difference', 1, 'diff-degF'],
  'degC.h': ['°C·h', 1],
  pct: ['%', 2],
  psi: ['psi', 0, 'MPa'],
  MPa: ['MPa', 2, 'psi'],
  hPa: ['hPa', 1, 'inHg'],
  inHg: ['inHg', 2, 'hPa'],
  mph: ['mph', 1, 'km/h'],
  kt: ['kt', 1, 'mph'],
  'km/h': ['km/h', 1, 'mph'],
  'm/s': ['m/s', 1, 'mph'],
  lb: ['lb', 2, 'kg'],
  kg: ['kg', 2, 'lb'],
  'lb/ft3': ['lb/ft³', 1, 'kg/m3'],
  'lb/yd3': ['lb/yd³', 1, 'kg/m3'],
  'lb/gal': ['lb/gal', 3, 'kg/L'],
  'kg/m3': ['kg/m³', 1, 'lb/yd3'],
  'lb/ft2/h': ['lb/ft²/h', 3, 'kg/m2/h'],
  'kg/m2/h': ['kg/m²/h', 3, 'lb/ft2/h'],
  'gal/yd3': ['gal/yd³', 2, 'L/m3'],
  'L/m3': ['L/m³', 2, 'gal/yd3'],
  'min/yd3': ['min/yd³', 2],
  'ft2/yd3': ['ft² a yd³', 2, 'm2/m3'],
  'ug/m3': ['µg/m³', 1],
  one: ['', 3],
}
const looksOf = (unit: TradeUnit) => LOOKS[unit] ?? ([unit, 3] as const)

/** A value in its own unit, and in brackets in the other system’s. */
export const showMeasure = (it: Measure | Estimate, digits?: number): string => {
  const [sign, usual, other] = looksOf(it.unit)
  const own = `${numberIn(it, digits ?? usual)}${sign === '' ? '' : ` ${sign}`}`
  if (!other) return own
  const [otherSign, otherDigits] = looksOf(other)
  return `${own}  (${numberIn(inOther(it, other), otherDigits)} ${otherSign})`
}

const inOther = (it: Measure | Estimate, unit: TradeUnit): Measure | Estimate =>
  'estimate' in it ? toEstimate(it as Estimate<TradeUnit>, unit) : toUnit(it as Measure<TradeUnit>, unit)

/** An estimate keeps its zeros, since its digits are its claim; an exact number drops them. */
const numberIn = (it: Measure | Estimate, digits: number): string =>
  'estimate' in it
    ? it.estimate.toFixed(digits)
    : it.unit === 'one' && digits === 2
      ? showFixed(it, 2)
      : showNumber(it, digits)

const VERDICTS = {
  inside: 'inside',
  outside: 'outside',
  'limit-not-stated': 'limit not stated',
  'not-recorded': 'not recorded',
} as const

const showFinding = ({ of, value, limit, verdict }: Finding): string => {
  const limits = limit && `${showEnds(limit)} (${showSource(limit.source)})`
  const parts = [
    value ? showMeasure(value) : 'not recorded',
    limits,
    value && limit ? VERDICTS[verdict] : undefined,
  ]
  const said = verdict === 'limit-not-stated' ? [parts[0], VERDICTS[verdict]] : parts
  return `${camelWords(of)}: ${said.filter((part) => part !== undefined).join('; ')}`
}

const showEnds = ({ least, most, open }: Limit): string => {
  const end = (m: Measure) =>
    `${numberIn(m, looksOf(m.unit)[1])}${looksOf(m.unit)[0] === '' ? '' : ` ${looksOf(m.unit)[0]}`}`
  const over = open === 'over-least' || open === 'both' ? 'over' : 'at least'
  const under = open === 'under-most' || open === 'both' ? 'under' : 'at most'
  return [least && `${over} ${end(least)}`, most && `${under} ${end(most)}`].filter(Boolean).join(', ')
}

/** `toMolding` as people read it. */
const camelWords = (name: string): string =>
  name.replaceAll(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`)

/** The lines that a person reads: figures, notes, sources. */
export const showAnswer = ({ shown, sources, notes = [] }: Answer): string[] => [
  ...shown.map(showOne),
  ...notes.map((note) => `  ${note}`),
  ...[...new Set(sources)].map((id) => `Source: ${showSource(id)}`),
]

const showOne = (one: Shown): string => {
  if (one.is === 'finding') return showFinding(one.finding)
  const { name, value: it, digits } = one
  if (typeof it === 'object') return `${name}: ${showMeasure(it, digits)}`
  return `${name}: ${typeof it === 'boolean' ? (it ? 'yes' : 'no') : it}`
}

/** The same for programs: numbers as numbers with their unit code, exact ones as a fraction too. */
export const answerAsJson = (name: string, { shown, sources, notes = [] }: Answer): string =>
  JSON.stringify({
    calc: name,
    results: shown.map((one) =>
      one.is === 'finding'
        ? { name: one.finding.of, ...findingJson(one.finding) }
        : { name: one.name.trim(), ...valueJson(one.value) },
    ),
    notes,
    sources: [...new Set(sources)].map(sourceJson),
  })

const valueJson = (it: Extract<Shown, { is: 'value' }>['value']): object => {
  if (typeof it !== 'object') return { value: it }
  const [, , other] = looksOf(it.unit)
  return { ...numberJson(it), ...(other ? { other: numberJson(inOther(it, other)) } : {}) }
}
const numberJson = (it: Measure | Estimate): object =>
  'estimate' in it
    ? { value: it.estimate, unit: it.unit, estimate: true }
    : { value: Number(it.n) / Number(it.d), unit: it.unit, exact: `${it.n}/${it.d}` }
const findingJson = ({ value: it, limit, verdict }: Finding): object => ({
  ...(it ? valueJson(it) : { value: null }),
  limit: limit
    ? {
        ...(limit.least ? { least: numberJson(limit.least) } : {}),
        ...(limit.most ? { most: numberJson(limit.most) } : {}),
        ...(limit.open ? { open: limit.open } : {}),
        source: limit.source,
      }
    : null,
  verdict,
})
const sourceJson = (id: SourceId): object => ({ id, ...SOURCES[id] })
