import { freeRow, line, type Mark, wideness, words } from '../drawing.ts'

/** A word at a moment. */
export type Label = { readonly x: number; readonly text: string; readonly bold?: boolean }

export const ROW = 30
/** More rows than these would not be read, and a drawing must fit on a sheet. */
const MOST_ROWS = 10

/**
 * Words at their moments, in as many rows as keep them apart, the first row next to `edge`; rows go down from it or up. A
 * line joins each to its moment at `edge`. Returns what is drawn and how many rows it took.
 */
export const labelMarks = (
  labels: readonly Label[],
  form: {
    readonly edge: number
    readonly way: 'up' | 'down'
    readonly left: number
    readonly right: number
    readonly size?: number
    /** What is said in place of words that are too many. */
    readonly crowd: (n: number) => string
  },
): { readonly marks: Mark[]; readonly rows: number } => {
  const { edge, way, left, right, size = 70, crowd } = form
  const rows: [number, number][][] = []
  const placed = [...labels]
    .sort((a, b) => a.x - b.x)
    .map((label) => {
      const wide = Math.min(wideness(label.text, size) + (label.bold ? 6 : 0), right - left)
      // A word stands to the right of its line, or to its left where it would leave the drawing.
      const turned = label.x + 6 + wide > right
      const from = turned ? Math.max(left, label.x - 6 - wide) : label.x + 6
      const row = freeRow(rows, Math.min(from, label.x) - 6, Math.max(from + wide, label.x) + 10)
      return { ...label, wide, from, row }
    })
  if (rows.length > MOST_ROWS) {
    // Too many to be told apart: their moments alone, and where their words stand.
    const [low, high] = way === 'down' ? [edge, edge + ROW] : [edge - ROW, edge]
    return {
      marks: [
        ...placed.map(({ x }) => line([x, low], [x, high], 10)),
        ...words([left, way === 'down' ? high + 4 : low - ROW], crowd(labels.length), {
          room: right - left,
          size,
        }),
      ],
      rows: 3,
    }
  }
  const lines: Mark[] = []
  const texts: Mark[] = []
  for (const { x, text, bold = false, wide, from, row } of placed) {
    const top = way === 'down' ? edge + 9 + row * ROW : edge - 8 - (row + 1) * ROW
    lines.push(line([x, edge], [x, way === 'down' ? top + ROW - 6 : top + 2], 10))
    texts.push(...words([from, top], text, { room: wide, size, bold }))
  }
  // Words last, so that no line runs through one.
  return { marks: [...lines, ...texts], rows: rows.length }
}
