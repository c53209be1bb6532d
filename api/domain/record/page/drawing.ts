import { printable } from '../printable.ts'

/**
 * What a drawing consists of, painted in this order. Lengths are tenths of a millimetre from its upper left corner, whole
 * numbers, so that a drawing is the same wherever it is worked out.
 */
export type Mark =
  | {
      readonly is: 'line'
      readonly from: Point
      readonly to: Point
      /** Hundredths of a millimetre. */
      readonly weight: number
      /** A grid's lines are grey and thin, and words stand over them. */
      readonly dash?: 'dashed' | 'dotted' | 'grid'
    }
  | {
      readonly is: 'box'
      readonly at: Point
      readonly size: Point
      readonly fill: Fill
      readonly weight: number
    }
  | { readonly is: 'shape'; readonly points: readonly Point[]; readonly fill: Fill; readonly weight: number }
  | { readonly is: 'dot'; readonly at: Point; readonly radius: number; readonly fill: Fill }
  | TextMark

/** One line of text, never broken; one that is wider than its room is set narrower, and so is never cut off. */
export type TextMark = {
  readonly is: 'text'
  /** The left end, middle or right end of its upper edge. */
  readonly at: Point
  readonly align: 'left' | 'middle' | 'right'
  readonly room: number
  /** Tenths of a point. */
  readonly size: number
  readonly bold: boolean
  readonly text: string
}

export type Point = readonly [number, number]
/** Greys and hatchings that stay apart in a grey copy. */
export type Fill = 'none' | 'white' | 'light' | 'mid' | 'dark' | 'hatched' | 'crossed'

export type Drawing = {
  readonly is: 'drawing'
  readonly width: number
  readonly height: number
  readonly marks: readonly Mark[]
}

/** The full width of a sheet's text. */
export const SHEET_WIDE = 1900

export const textsOfDrawing = ({ marks }: Drawing): string[] =>
  marks.flatMap((mark) => (mark.is === 'text' ? [mark.text] : []))

export const printableDrawing = (drawing: Drawing): Drawing => ({
  ...drawing,
  marks: drawing.marks.map((mark) => (mark.is === 'text' ? { ...mark, text: printable(mark.text) } : mark)),
})

export const line = (from: Point, to: Point, weight = 15, dash?: 'dashed' | 'dotted' | 'grid'): Mark => ({
  is: 'line',
  from: whole(from),
  to: whole(to),
  weight,
  ...(dash === undefined ? {} : { dash }),
})

export const box = (at: Point, size: Point, fill: Fill = 'none', weight = 20): Mark => ({
  is: 'box',
  at: whole(at),
  size: whole(size),
  fill,
  weight,
})

export const shape = (points: readonly Point[], fill: Fill, weight = 20): Mark => ({
  is: 'shape',
  points: points.map(whole),
  fill,
  weight,
})

export const dot = (at: Point, radius: number, fill: Fill = 'dark'): Mark => ({
  is: 'dot',
  at: whole(at),
  radius: Math.round(radius),
  fill,
})

type TextForm = {
  readonly align?: TextMark['align']
  readonly room: number
  readonly size?: number
  readonly bold?: boolean
}

/** A word is set as narrow as it must be, and is never left out. */
const LEAST_ROOM = 12

/** Nothing where there is no text: an empty run is no run. */
export const words = (
  at: Point,
  text: string,
  { align = 'left', room, size = 72, bold = false }: TextForm,
): Mark[] =>
  text === ''
    ? []
    : [{ is: 'text', at: whole(at), align, room: Math.max(LEAST_ROOM, Math.round(room)), size, bold, text }]

const whole = ([x, y]: Point): Point => [Math.round(x), Math.round(y)]

/** About how wide a text is in the record's typeface, tenths of a millimetre. Source: measured, 0.53 of its size a sign. */
export const wideness = (text: string, size = 72): number =>
  Math.ceil([...text].length * size * 0.53 * 0.3528)

/**
 * The first of several rows on which what begins at `from` and ends at `to` meets nothing that is there already. The rows
 * are changed: what is placed takes its room.
 */
export const freeRow = (rows: [number, number][][], from: number, to: number): number => {
  const at = rows.findIndex((row) => row.every(([a, b]) => to <= a || from >= b))
  if (at >= 0) {
    rows[at]!.push([from, to])
    return at
  }
  rows.push([[from, to]])
  return rows.length - 1
}
