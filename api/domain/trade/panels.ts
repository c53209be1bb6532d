import { fail, ok, type Result } from '../result.ts'
import { compare, minus, over, plus, type Ratio, ratio, times } from '../units.ts'
import { type Input, offCount, offRange, type TradeProblem } from './asked.ts'
import { PANEL_LIMITS } from './joints.ts'
import { ceiling, type Length, type Measure, measure, toUnit } from './measure.ts'
import { RANGES } from './ranges.ts'

/** A corner of a slab, from any point that all corners are measured from. */
export type Corner = { readonly x: Length; readonly y: Length }
export type Panel = {
  readonly x: Measure<'ft'>
  readonly y: Measure<'ft'>
  readonly width: Measure<'ft'>
  readonly height: Measure<'ft'>
  /** Long side to short side. */
  readonly aspect: Measure<'one'>
}
export type PanelLayout = {
  /** Where joints run across, and along; outer edges are no joints. */
  readonly jointsAtX: readonly Measure<'ft'>[]
  readonly jointsAtY: readonly Measure<'ft'>[]
  readonly panels: readonly Panel[]
  readonly reentrantCorners: number
  /** Panels longer than 1.5 times their width: slivers to lay out otherwise. */
  readonly slivers: number
}

/**
 * Joints of a slab with square corners: one through each re-entrant corner, where a crack would start (through every
 * corner’s line, so that panels end at edges), and more between them in equal steps, none above the most spacing.
 * Units: any lengths → feet. Fails: `missing`, `out-of-range` (4 to 60 corners), `contradiction` where two corners in a
 * row are not square to each other, or the outline crosses itself.
 * Source: joints at re-entrant corners, panels about square (Basham; ACI 302.1R); the equal steps are our choice.
 */
export const layOutPanels = (of: {
  readonly corners: Input<readonly Corner[]>
  readonly mostSpacing: Input<Length>
}): Result<PanelLayout, TradeProblem> => {
  const off =
    offCount('/corners', of.corners, 4, 60) ?? offRange('/mostSpacing', of.mostSpacing, RANGES.spacing)
  if (off || !of.corners || !of.mostSpacing) return off ?? fail('missing', '/corners')
  const outline = of.corners.map(({ x, y }): Point => [toUnit(x, 'ft'), toUnit(y, 'ft')])
  const square = outline.findIndex((corner, i) => !isSquare(corner, next(outline, i)))
  if (square >= 0)
    return fail('contradiction', `/corners/${square}`, { given: 'not square to the next corner' })
  if (crosses(outline))
    return fail('contradiction', '/corners', { given: 'the outline crosses or touches itself' })
  const inward = reentrant(outline)
  const most = toUnit(of.mostSpacing, 'ft')
  const xs = cuts(
    outline.map(([x]) => x),
    most,
  )
  const ys = cuts(
    outline.map(([, y]) => y),
    most,
  )
  if ((xs.length - 1) * (ys.length - 1) > 10_000)
    return fail('out-of-range', '/mostSpacing', { given: 'more than 10000 panels', most: '10000 panels' })
  const panels = panelsIn(outline, xs, ys)
  return ok({
    jointsAtX: xs.slice(1, -1).map((x) => measure(x, 'ft')),
    jointsAtY: ys.slice(1, -1).map((y) => measure(y, 'ft')),
    panels,
    reentrantCorners: inward.length,
    slivers: panels.filter(({ aspect }) => compare(aspect, PANEL_LIMITS.ratio.most) > 0).length,
  })
}

/**
 * Joints of a plain rectangle. Units: any lengths → feet. Fails: `missing`, `out-of-range`.
 * Source: as `layOutPanels`; each side in as few equal steps as the most spacing allows.
 */
export const layOutRectangle = (of: {
  readonly length: Input<Length>
  readonly width: Input<Length>
  readonly mostSpacing: Input<Length>
}): Result<PanelLayout, TradeProblem> => {
  const off = offRange('/length', of.length, RANGES.panel) ?? offRange('/width', of.width, RANGES.panel)
  if (off || !of.length || !of.width) return off ?? fail('missing', '/length')
  const none = measure(ratio(0n), 'ft')
  const corners = [
    { x: none, y: none },
    { x: of.length, y: none },
    { x: of.length, y: of.width },
    { x: none, y: of.width },
  ]
  return layOutPanels({ corners, mostSpacing: of.mostSpacing })
}

type Point = readonly [Ratio, Ratio]
const TWO = ratio(2n)
const next = (outline: readonly Point[], i: number): Point => outline[(i + 1) % outline.length]!
const same = (a: Ratio, b: Ratio): boolean => compare(a, b) === 0
/** Along x or along y, and not of no length. */
const isSquare = (a: Point, b: Point): boolean => same(a[0], b[0]) !== same(a[1], b[1])

/** Whether the turn at a corner goes against the outline’s own sense; straight on is no corner. */
const reentrant = (outline: readonly Point[]): Point[] => {
  const turn = (i: number): number => {
    const [a, b, c] = [outline.at(i - 1)!, outline[i]!, next(outline, i)]
    const left = times(minus(b[0], a[0]), minus(c[1], b[1]))
    return compare(left, times(minus(b[1], a[1]), minus(c[0], b[0])))
  }
  const turns = outline.map((_, i) => turn(i))
  const sense = Math.sign(turns.reduce((all, one) => all + one, 0))
  return outline.filter((_, i) => turns[i] === -sense)
}

/** Two edges that are no neighbours and meet: then inside and outside have no meaning. */
const crosses = (outline: readonly Point[]): boolean => {
  const n = outline.length
  const edge = (i: number) => [outline[i]!, next(outline, i)] as const
  const span = (i: number, axis: 0 | 1) =>
    [edge(i)[0][axis], edge(i)[1][axis]].sort(compare) as [Ratio, Ratio]
  const overlap = (i: number, j: number, axis: 0 | 1) =>
    compare(span(i, axis)[0], span(j, axis)[1]) <= 0 && compare(span(j, axis)[0], span(i, axis)[1]) <= 0
  return outline.some((_, i) =>
    outline.some((_, j) => j > i + 1 && !(i === 0 && j === n - 1) && overlap(i, j, 0) && overlap(i, j, 1)),
  )
}

/** Every corner’s line, so that no panel is cut by an edge, and between two as many equal steps as the spacing asks for. */
const cuts = (all: readonly Ratio[], most: Ratio): Ratio[] => {
  const fixed = all.toSorted(compare).filter((at, i, list) => i === 0 || !same(at, list[i - 1]!))
  return fixed.flatMap((from, i) => {
    const until = fixed[i + 1]
    if (until === undefined) return [from]
    const gap = minus(until, from)
    const n = Number(ceiling(over(gap, most)))
    return Array.from({ length: n }, (_, k) => plus(from, times(gap, ratio(BigInt(k), BigInt(n)))))
  })
}

const panelsIn = (outline: readonly Point[], xs: readonly Ratio[], ys: readonly Ratio[]): Panel[] =>
  xs.slice(1).flatMap((right, i) =>
    ys.slice(1).flatMap((top, j): Panel[] => {
      const [left, bottom] = [xs[i]!, ys[j]!]
      const middle: Point = [over(plus(left, right), TWO), over(plus(bottom, top), TWO)]
      if (!isInside(outline, middle)) return []
      const [width, height] = [minus(right, left), minus(top, bottom)]
      const aspect = compare(width, height) >= 0 ? over(width, height) : over(height, width)
      const at = (r: Ratio) => measure(r, 'ft')
      return [
        { x: at(left), y: at(bottom), width: at(width), height: at(height), aspect: measure(aspect, 'one') },
      ]
    }),
  )

/** Edges to the right that span the point’s height: odd inside. The middle of a panel lies on no edge’s height. */
const isInside = (outline: readonly Point[], [x, y]: Point): boolean => {
  const right = outline.filter((a, i) => {
    const b = next(outline, i)
    const spans = compare(a[1], y) > 0 !== compare(b[1], y) > 0
    return spans && same(a[0], b[0]) && compare(a[0], x) > 0
  })
  return right.length % 2 === 1
}
