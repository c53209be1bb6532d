import type { Block } from '../../../domain/record/page/blocks.ts'

/**
 * The pieces of a word too long for its place, parted by zero-width spaces, at which page.typ may break the line. Typst
 * never hyphenates here, so that no sign is on the page that is not in the entry.
 */
const ZERO_WIDTH_SPACE = '\u200b'
/** Longest word, all of W, that fits on a line of the sheet, and in a cell of the table, at the sizes of page.typ. */
const ON_SHEET = 64
const IN_CELL = 14
/** In a caption beneath a photo, photos being so many across. */
const IN_CAPTION: Readonly<Record<number, number>> = { 1: 64, 2: 30, 3: 19, 4: 14 }
/** A cell of a grid takes its share of the sheet, less what its inset takes. */
const GRID_INSET = 2

const broken = (text: string, most: number): string =>
  text.replaceAll(/\S+/gu, (word) => {
    const characters = [...word]
    if (characters.length <= most) return word
    const step = Math.max(1, Math.floor(most / 2))
    const pieces = characters.map((c, i) => (i % step === 0 ? ZERO_WIDTH_SPACE + c : c))
    return pieces.join('') + ZERO_WIDTH_SPACE
  })

export const breakable = (block: Block): Block => {
  switch (block.is) {
    case 'pairs':
      return { ...block, rows: block.rows.map(([label, value]) => [label, broken(value, ON_SHEET)] as const) }
    case 'grid':
      return {
        ...block,
        rows: block.rows.map((row) => row.map((cell, i) => broken(cell, inColumn(block.widths, i)))),
      }
    case 'table':
      return { ...block, cells: block.cells.map((cell) => cell.map((line) => broken(line, IN_CELL))) }
    case 'list':
      return { ...block, items: block.items.map((item) => broken(item, ON_SHEET)) }
    case 'sheet':
    case 'drawing':
      return block
    case 'prints':
      return {
        ...block,
        prints: block.prints.map((print) => ({
          ...print,
          lines: print.lines.map((line) => broken(line, IN_CAPTION[block.across] ?? IN_CELL)),
        })),
      }
    case 'title':
      return { ...block, text: broken(block.text, 25) }
    default:
      return { ...block, text: broken(block.text, ON_SHEET) }
  }
}

const inColumn = (widths: readonly number[], column: number): number => {
  const share = widths[column]! / widths.reduce((a, b) => a + b, 0)
  return Math.max(2, Math.floor(ON_SHEET * share) - GRID_INSET)
}
