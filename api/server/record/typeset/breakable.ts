import type { Block } from '../../../domain/record/page/blocks.ts'

/**
 * The pieces of a word too long for its place, parted by zero-width spaces, at which page.typ may break the line. Typst
 * never hyphenates here, so that no sign is on the page that is not in the entry.
 */
const ZERO_WIDTH_SPACE = '\u200b'
/** Longest word, all of W, that fits on a line of the sheet, and in a cell of the table, at the sizes of page.typ. */
const ON_SHEET = 64
const IN_CELL = 14

const broken = (text: string, most: number): string =>
  text.replaceAll(/\S+/gu, (word) => {
    const characters = [...word]
    if (characters.length <= most) return word
    const step = Math.floor(most / 2)
    const pieces = characters.map((c, i) => (i % step === 0 ? ZERO_WIDTH_SPACE + c : c))
    return pieces.join('') + ZERO_WIDTH_SPACE
  })

export const breakable = (block: Block): Block => {
  switch (block.is) {
    case 'pairs':
      return { ...block, rows: block.rows.map(([label, value]) => [label, broken(value, ON_SHEET)]) }
    case 'table':
      return { ...block, cells: block.cells.map((cell) => cell.map((line) => broken(line, IN_CELL))) }
    case 'list':
      return { ...block, items: block.items.map((item) => broken(item, ON_SHEET)) }
    case 'title':
      return { ...block, text: broken(block.text, 36) }
    default:
      return { ...block, text: broken(block.text, ON_SHEET) }
  }
}
