import { over, type Ratio, ratio, sizeOf, times } from '../units.ts'

/** Size of one unit in SI; for temperatures, what is taken off the reading first. */
type Size = { readonly size: Ratio; readonly zero?: Ratio }

const size = (...[n, d]: Parameters<typeof ratio>): Size => ({ size: ratio(n, d) })
const by = (a: Ratio, b: Ratio): Size => ({ size: times(a, b) })
const per = (a: Ratio, b: Ratio): Size => ({ size: over(a, b) })

const FT = sizeOf('ft').size
const IN = sizeOf('in').size
const MM = ratio(1n, 1_000n)
const FT3 = times(FT, times(FT, FT))
const FT2 = times(FT, FT)
const YD3 = sizeOf('yd3').size
const GAL = sizeOf('gal').size
const LB = sizeOf('lb').size
const HOUR = ratio(3_600n)
const LITRE = ratio(1n, 1_000n)

/**
 * The units of the trade by dimension, each with its exact size in SI (metre, square and cubic metre, second, kelvin
 * above 0 °C, pascal, kilogram and what is made of them). A dimension keeps apart what must never be mixed: a drop of
 * 50 °F is no temperature, and water per concrete is no plain number.
 * Source: NIST SP 811 (2008), Appendix B.8 and B.9; all exact but inHg, which is the conventional 3 386.389 Pa.
 */
export const UNIT_TABLE = {
  length: {
    in: sizeOf('in'),
    ft: sizeOf('ft'),
    yd: by(FT, ratio(3n)),
    mi: sizeOf('mi'),
    mm: sizeOf('mm'),
    cm: size(1n, 100n),
    m: sizeOf('m'),
    km: sizeOf('km'),
  },
  area: {
    in2: by(IN, IN),
    ft2: sizeOf('ft2'),
    yd2: by(FT2, ratio(9n)),
    mm2: by(MM, MM),
    m2: sizeOf('m2'),
  },
  volume: {
    in3: by(IN, times(IN, IN)),
    ft3: { size: FT3 },
    yd3: sizeOf('yd3'),
    gal: sizeOf('gal'),
    'fl-oz': sizeOf('fl-oz'),
    m3: sizeOf('m3'),
    L: sizeOf('L'),
    mL: sizeOf('mL'),
  },
  time: { s: size(1n), min: sizeOf('min'), h: sizeOf('h'), d: size(86_400n), week: size(604_800n) },
  temperature: {
    degF: sizeOf('degF'),
    degC: sizeOf('degC'),
    K: { size: ratio(1n), zero: ratio(27_315n, 100n) },
  },
  'temperature-difference': { 'diff-degF': size(5n, 9n), 'diff-degC': size(1n) },
  'temperature-time': { 'degC.h': size(3_600n), 'degF.h': size(2_000n) },
  share: { pct: sizeOf('pct') },
  pressure: {
    psi: sizeOf('psi'),
    psf: per(sizeOf('psi').size, ratio(144n)),
    ksi: by(sizeOf('psi').size, ratio(1_000n)),
    Pa: size(1n),
    hPa: size(100n),
    kPa: size(1_000n),
    MPa: sizeOf('MPa'),
    inHg: size(3_386_389n, 1_000n),
  },
  speed: {
    mph: sizeOf('mph'),
    kt: size(1_852n, 3_600n),
    'ft/min': per(FT, ratio(60n)),
    'km/h': sizeOf('km/h'),
    'm/s': sizeOf('m/s'),
  },
  mass: {
    lb: sizeOf('lb'),
    oz: per(LB, ratio(16n)),
    'ton-short': by(LB, ratio(2_000n)),
    g: size(1n, 1_000n),
    kg: sizeOf('kg'),
    t: size(1_000n),
  },
  density: {
    'lb/ft3': sizeOf('lb/ft3'),
    'lb/yd3': sizeOf('lb/yd3'),
    'lb/gal': per(LB, GAL),
    'kg/m3': sizeOf('kg/m3'),
    'kg/L': size(1_000n),
  },
  evaporation: { 'lb/ft2/h': per(LB, times(FT2, HOUR)), 'kg/m2/h': per(ratio(1n), HOUR) },
  'water-per-concrete': { 'gal/yd3': per(GAL, YD3), 'L/m3': size(1n, 1_000n) },
  'placing-rate': { 'yd3/h': per(YD3, HOUR), 'm3/h': per(ratio(1n), HOUR) },
  'time-per-concrete': { 'min/yd3': per(ratio(60n), YD3), 'min/m3': size(60n) },
  coverage: {
    'ft2/yd3': per(FT2, YD3),
    'ft2/gal': per(FT2, GAL),
    'm2/m3': size(1n),
    'm2/L': per(ratio(1n), LITRE),
  },
  dust: { 'ug/m3': size(1n, 1_000_000_000n), 'mg/m3': size(1n, 1_000_000n) },
  number: { one: size(1n) },
} as const satisfies Record<string, Record<string, Size>>

export type Dimension = keyof typeof UNIT_TABLE
type UnitsBy = { [D in Dimension]: keyof (typeof UNIT_TABLE)[D] & string }
export type UnitOf<D extends Dimension> = UnitsBy[D]
export type TradeUnit = UnitsBy[Dimension]
/** The dimension that a unit is of. */
export type DimensionOf<U extends TradeUnit> = Extract<
  { [D in Dimension]: U extends UnitsBy[D] ? D : never }[Dimension],
  Dimension
>
/** The units that can stand for this one. */
export type Like<U extends TradeUnit> = UnitsBy[DimensionOf<U>]

const ALL = new Map<string, { readonly dimension: Dimension; readonly size: Size }>(
  Object.entries(UNIT_TABLE).flatMap(([dimension, units]) =>
    Object.entries(units).map(([unit, its]) => [unit, { dimension: dimension as Dimension, size: its }]),
  ),
)

/**
 * The dimension of a unit. Units: none. Fails: never; the type admits known units alone.
 * Source: our choice of names; SPEC L10 has those that entries carry.
 */
export const dimensionOfUnit = (unit: TradeUnit): Dimension => ALL.get(unit)!.dimension

/**
 * A unit's exact size in SI. Units: SI per unit. Fails: never; the type admits known units alone.
 * Source: NIST SP 811 (2008), Appendix B.8.
 */
export const sizeOfUnit = (unit: TradeUnit): Size => ALL.get(unit)!.size

/**
 * Whether a text is a unit of this table. Units: none. Fails: never. Source: our choice of names.
 */
export const isTradeUnit = (text: string): text is TradeUnit => ALL.has(text)

/**
 * The units of a dimension, the first one being the one that US crews use. Units: none. Fails: never.
 * Source: our choice of order.
 */
export const unitsOf = <D extends Dimension>(dimension: D): readonly UnitOf<D>[] =>
  Object.keys(UNIT_TABLE[dimension]) as UnitOf<D>[]
