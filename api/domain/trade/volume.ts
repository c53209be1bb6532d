import { fail, ok, type Result } from '../result.ts'
import { compare, over, plus, type Ratio, ratio, sum, times } from '../units.ts'
import {
  type Asked,
  ask,
  type Input,
  offCount,
  offOrder,
  offRange,
  readAll,
  type TradeProblem,
} from './asked.ts'
import { boxFeet3, FEET3_PER_YARD3 } from './box.ts'
import { type Area, type Length, type Measure, measure, type Plain, toUnit, type Volume } from './measure.ts'
import { RANGES } from './ranges.ts'
import type { TradeUnit } from './unit-table.ts'

/** Cubic yards, exact; circles by π to 39 digits. */
export type Yards = Result<Measure<'yd3'>, TradeProblem>

/** π cut after 39 digits: what it is short of the true one is below any scale’s last digit. */
const PI = ratio(3_141592653589793238462643383279502884197n, 10n ** 39n)

/**
 * A slab of one thickness. Also a footing, a wall, a walk of one width.
 * Units: any lengths → yd³. Fails: `missing`, `out-of-range`.
 * Source: length × width × thickness; yd³ = ft² · in / 324 (arithmetic).
 */
export const slab = (of: {
  readonly length: Input<Length>
  readonly width: Input<Length>
  readonly thickness: Input<Length>
}): Yards =>
  feet({ length: side(of.length), width: side(of.width), thickness: thick(of.thickness) }, (f) =>
    boxFeet3(f.length, f.width, f.thickness),
  )

/**
 * A slab known by its area. Units: any area and length → yd³. Fails: `missing`, `out-of-range`.
 * Source: area × thickness (arithmetic).
 */
export const slabOfArea = (of: { readonly area: Input<Area>; readonly thickness: Input<Length> }): Yards => {
  const off =
    offRange('/area', of.area, RANGES.area) ?? offRange('/thickness', of.thickness, RANGES.thickness)
  if (off || !of.area || !of.thickness) return off ?? fail('missing', '/area')
  return ok(yards(times(toUnit(of.area, 'ft2'), toUnit(of.thickness, 'ft'))))
}

/**
 * A strip whose width flares, whose thickness tapers, or both, straight from one end to the other. A thickness may run
 * out to nothing, which is a wedge.
 * Units: any lengths → yd³. Fails: `missing`, `out-of-range`; `contradiction` where both thicknesses are nothing.
 * Source: prismoidal rule V = L/6 · (A₁ + 4 Aₘ + A₂), exact for straight sides (arithmetic).
 */
export const taperedSlab = (of: {
  readonly length: Input<Length>
  readonly width: Input<Length>
  readonly endWidth: Input<Length>
  readonly thickness: Input<Length>
  readonly endThickness: Input<Length>
}): Yards => {
  const volume = feet(
    {
      length: side(of.length),
      width: side(of.width),
      endWidth: side(of.endWidth),
      thickness: ask(of.thickness, RANGES.thicknessOrNone),
      endThickness: ask(of.endThickness, RANGES.thicknessOrNone),
    },
    (f) => {
      const ends = plus(times(f.width, f.thickness), times(f.endWidth, f.endThickness))
      // Four times the middle: (w₁ + w₂)/2 · (t₁ + t₂)/2 · 4.
      const middle = times(plus(f.width, f.endWidth), plus(f.thickness, f.endThickness))
      return over(times(f.length, plus(ends, middle)), ratio(6n))
    },
  )
  if (volume.ok && volume.value.n === 0n)
    return fail('contradiction', '/thickness', { given: 'nothing at both ends' })
  return volume
}

/**
 * A wedge: full thickness at one end, nothing at the other. Units: any lengths → yd³. Fails: `missing`, `out-of-range`.
 * Source: half of length × width × thickness (arithmetic).
 */
export const wedge = (of: {
  readonly length: Input<Length>
  readonly width: Input<Length>
  readonly thickness: Input<Length>
}): Yards => {
  const whole = slab(of)
  return whole.ok ? ok(measure(over(whole.value, ratio(2n)), 'yd3')) : whole
}

/**
 * A round slab, a pier, a column. Units: any lengths → yd³. Fails: `missing`, `out-of-range`.
 * Source: π/4 · diameter² × height (arithmetic).
 */
export const cylinder = (of: { readonly diameter: Input<Length>; readonly height: Input<Length> }): Yards =>
  feet({ diameter: round(of.diameter), height: ask(of.height, RANGES.height) }, (f) =>
    times(circleOf(f.diameter), f.height),
  )

/**
 * A ring, as around a pool or a tree. Units: any lengths → yd³.
 * Fails: `missing`, `out-of-range`; `contradiction` where the inner diameter is not below the outer.
 * Source: π/4 · (D² − d²) × thickness (arithmetic).
 */
export const ring = (of: {
  readonly outerDiameter: Input<Length>
  readonly innerDiameter: Input<Length>
  readonly thickness: Input<Length>
}): Yards => {
  const { outerDiameter: outer, innerDiameter: inner } = of
  const volume = feet(
    {
      outerDiameter: round(outer),
      innerDiameter: round(inner),
      thickness: thick(of.thickness),
    },
    (f) => times(plus(circleOf(f.outerDiameter), times(ratio(-1n), circleOf(f.innerDiameter))), f.thickness),
  )
  if (!volume.ok || !outer || !inner) return volume
  return offOrder(['innerDiameter', inner], ['outerDiameter', outer]) ?? volume
}

/**
 * What a thickened edge takes below the slab. Its sides may slope: the width where it leaves the slab, and at its foot.
 * Units: any lengths → yd³. Fails: `missing`, `out-of-range`.
 * Source: length × depth below the slab × mean of both widths (arithmetic).
 */
export const thickenedEdge = (of: {
  readonly length: Input<Length>
  readonly depthBelowSlab: Input<Length>
  readonly widthAtSlab: Input<Length>
  readonly widthAtFoot: Input<Length>
}): Yards =>
  feet(
    {
      length: side(of.length),
      depthBelowSlab: thick(of.depthBelowSlab),
      widthAtSlab: side(of.widthAtSlab),
      widthAtFoot: side(of.widthAtFoot),
    },
    (f) => over(times(f.length, times(f.depthBelowSlab, plus(f.widthAtSlab, f.widthAtFoot))), ratio(2n)),
  )

/**
 * Solid steps on the ground, cast in one: the first is one rise high, the last all of them; the top tread may be longer
 * (a landing). Units: any lengths; a whole number of steps → yd³.
 * Fails: `missing`, `out-of-range` (1 to 60 steps, each of a whole rise).
 * Source: width × rise × (tread · n(n − 1)/2 + top tread · n) (arithmetic).
 */
export const steps = (of: {
  readonly count: Input<Plain>
  readonly rise: Input<Length>
  readonly tread: Input<Length>
  readonly width: Input<Length>
  readonly topTread?: Input<Length>
}): Yards => {
  const { count } = of
  if (!count) return fail('missing', '/count', { least: 1, most: 60 })
  if (count.d !== 1n || count.n < 1n || count.n > 60n)
    return fail('out-of-range', '/count', { given: `${count.n}/${count.d}`, least: 1, most: 60 })
  const n = ratio(count.n)
  const lower = ratio(count.n * (count.n - 1n), 2n)
  return feet(
    {
      rise: ask(of.rise, RANGES.rise),
      tread: ask(of.tread, RANGES.tread),
      width: side(of.width),
      topTread: ask(of.topTread ?? of.tread, RANGES.side),
    },
    (f) => times(times(f.width, f.rise), plus(times(f.tread, lower), times(f.topTread, n))),
  )
}

/** What measured depths say of a base that is uneven. */
export type UnevenBase = {
  readonly volume: Measure<'yd3'>
  readonly meanDepth: Measure<'in'>
  readonly leastDepth: Measure<'in'>
  readonly mostDepth: Measure<'in'>
  readonly depths: number
}

/**
 * A slab over an uneven base, from depths taped at places spread evenly over it; each counts the same.
 * Units: any area and lengths → yd³ and inches. Fails: `missing`, `out-of-range` (1 to 1,000 depths).
 * Source: area × mean depth (arithmetic); ⅛ in too deep on 4 in is 3 % of the order (NRMCA CIP 8).
 */
export const unevenBase = (of: {
  readonly area: Input<Area>
  readonly depths: Input<readonly Length[]>
}): Result<UnevenBase, TradeProblem> => {
  const off = offRange('/area', of.area, RANGES.area) ?? offCount('/depths', of.depths, 1, 1_000)
  if (off || !of.area || !of.depths) return off ?? fail('missing', '/area')
  for (const [i, depth] of of.depths.entries()) {
    const odd = offRange(`/depths/${i}`, depth, RANGES.thicknessOrNone)
    if (odd) return odd
  }
  const all = of.depths.map((depth) => toUnit(depth, 'in')).sort(compare)
  const mean = over(sum(all), ratio(BigInt(all.length)))
  return ok({
    volume: yards(over(times(toUnit(of.area, 'ft2'), mean), ratio(12n))),
    meanDepth: measure(mean, 'in'),
    leastDepth: all[0]!,
    mostDepth: all.at(-1)!,
    depths: all.length,
  })
}

/**
 * The area that a cubic yard covers. Units: any length → ft² per yd³. Fails: `missing`, `out-of-range`.
 * Source: 324 / thickness in inches (arithmetic).
 */
export const coverage = (of: {
  readonly thickness: Input<Length>
}): Result<Measure<'ft2/yd3'>, TradeProblem> => {
  const read = readAll({ thickness: thick(of.thickness) })
  return read.ok ? ok(measure(over(ratio(324n), toUnit(read.value.thickness, 'in')), 'ft2/yd3')) : read
}

/**
 * The volume of all parts. Units: any volumes → yd³. Fails: never. Source: arithmetic; volume is additive.
 */
export const sumVolumes = (parts: readonly Volume[]): Measure<'yd3'> =>
  measure(sum(parts.map((part) => toUnit(part, 'yd3'))), 'yd3')

const side = (given: Input<Length>) => ask(given, RANGES.side)
const thick = (given: Input<Length>) => ask(given, RANGES.thickness)
const round = (given: Input<Length>) => ask(given, RANGES.diameter)
const circleOf = (diameterFt: Ratio): Ratio => times(over(PI, ratio(4n)), times(diameterFt, diameterFt))
const yards = (feet3: Ratio): Measure<'yd3'> => measure(over(feet3, FEET3_PER_YARD3), 'yd3')

/** All lengths read and in feet; cubic feet of them as yards. */
const feet = <K extends string>(
  fields: Readonly<Record<K, Asked<Length['unit']>>>,
  feet3: (f: Readonly<Record<K, Ratio>>) => Ratio,
): Yards => {
  const read = readAll(fields as Readonly<Record<string, Asked<TradeUnit>>>)
  if (!read.ok) return read
  const inFeet = Object.entries(read.value).map(([name, m]) => [name, toUnit(m as Length, 'ft')])
  return ok(yards(feet3(Object.fromEntries(inFeet) as Record<K, Ratio>)))
}
