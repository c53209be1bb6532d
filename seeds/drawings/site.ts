import { box, HEIGHT, many, shape, stroke, WIDTH, words } from './paper.ts'

export const COLORS = {
  sky: '#c9d9e4',
  gravel: '#b9ab93',
  stone: '#8d8170',
  board: '#c79f63',
  boardEdge: '#7a5a2c',
  wet: '#8b8f8e',
  slab: '#b8b9b4',
  line: '#5c6062',
  tape: '#e8c62e',
  cloth: '#b08a55',
} as const

const speck = (i: number, top: number, color: string): string => {
  const x = (i * 197) % WIDTH
  const y = top + ((i * 131) % (HEIGHT - top))
  return `<ellipse cx="${x}" cy="${y}" rx="${5 + (i % 5)}" ry="${3 + (i % 3)}" fill="${color}"/>`
}

/** Sky over a base of stone, with form boards to both sides. */
export const base = (): string =>
  [
    box(0, 0, WIDTH, 230, COLORS.sky),
    box(0, 230, WIDTH, 490, COLORS.gravel),
    many(140, (i) => speck(i, 240, COLORS.stone)),
    boards(),
  ].join('')

/** Forms that run away from whoever looks. */
export const boards = (): string =>
  [
    shape('60,720 110,720 420,230 400,230', COLORS.board, COLORS.boardEdge),
    shape('900,720 850,720 540,230 560,230', COLORS.board, COLORS.boardEdge),
  ].join('')

/** Concrete between the forms, wet or set. */
export const slab = (fill: string): string =>
  [
    box(0, 0, WIDTH, 230, COLORS.sky),
    box(0, 230, WIDTH, 490, '#7d8a63'),
    shape('110,720 850,720 540,230 420,230', fill),
    boards(),
  ].join('')

/** A tape that stands in the form, read at its top. */
export const tape = (reading: string, x = 470): string =>
  [
    box(x, 190, 64, 440, COLORS.tape, COLORS.line),
    many(22, (i) => stroke(`M ${x} ${200 + i * 20} h ${i % 4 === 0 ? 34 : 18}`, COLORS.line, 3)),
    stroke(`M ${x - 120} 250 h 300`, '#a0220f', 5),
    words(x + 90, 300, reading, 54, { weight: 700 }),
  ].join('')

/** A spirit level on a board. */
export const level = (): string =>
  [
    base(),
    box(120, 420, 720, 90, '#d8d8d2', COLORS.line),
    box(430, 440, 100, 50, '#d7e86a', COLORS.line),
    stroke('M 462 440 v 50 M 498 440 v 50', COLORS.line, 4),
    `<ellipse cx="468" cy="458" rx="16" ry="10" fill="#f6ffd0" stroke="${COLORS.line}" stroke-width="3"/>`,
  ].join('')
