import { printable } from '../printable.ts'
import { type Drawing, printableDrawing, textsOfDrawing } from './drawing.ts'

/** What the page consists of, in reading order. The drawing knows nothing else, and the checker reads the same. */
export type Block =
  | { readonly is: 'title'; readonly text: string }
  | { readonly is: 'heading'; readonly text: string }
  /** A heading within a section. */
  | { readonly is: 'subheading'; readonly text: string }
  | { readonly is: 'paragraph'; readonly text: string }
  | { readonly is: 'pairs'; readonly rows: readonly (readonly [string, string])[] }
  /**
   * Facts down, loads across; a cell is a list of lines. The first row and the first column are labels. Pictures stand
   * in a cell, by its place, each above the line where its caption begins.
   */
  | {
      readonly is: 'table'
      readonly columns: number
      readonly cells: readonly (readonly string[])[]
      readonly pictures?: Readonly<Record<string, readonly (Picture & { readonly above: number })[]>>
    }
  /** One happening a row; the first row is labels. Widths are shares of the sheet's. */
  | {
      readonly is: 'grid'
      readonly widths: readonly number[]
      readonly rows: readonly (readonly string[])[]
    }
  | { readonly is: 'list'; readonly items: readonly string[] }
  /** What comes next begins a sheet. */
  | { readonly is: 'sheet' }
  | Drawing
  /** Photos in rows, each with its caption beneath. */
  | { readonly is: 'prints'; readonly across: number; readonly prints: readonly Print[] }

/** A photo as it stands on the page: large where a figure rests on it. */
export type Picture = { readonly photo: string; readonly print: 'large' | 'contact' }
export type Print = Picture & { readonly lines: readonly string[] }

/** The photos that a page shows, each once, at the largest print that it is shown in. */
export const picturesOf = (blocks: readonly Block[]): Picture[] => {
  const found = new Map<string, Picture>()
  for (const block of blocks) {
    const shown =
      block.is === 'prints'
        ? block.prints
        : block.is === 'table'
          ? Object.values(block.pictures ?? {}).flat()
          : []
    for (const { photo, print } of shown)
      if (print === 'large' || !found.has(photo)) found.set(photo, { photo, print })
  }
  return [...found.values()]
}

/** All of a block's text runs in the order in which they are drawn. */
const runsOf = (block: Block): readonly string[] => {
  switch (block.is) {
    case 'pairs':
      return block.rows.flat()
    case 'grid':
      return block.rows.flat()
    case 'table':
      return block.cells.flat()
    case 'list':
      return block.items
    case 'sheet':
      return []
    case 'drawing':
      return textsOfDrawing(block)
    case 'prints':
      return block.prints.flatMap(({ lines }) => lines)
    default:
      return [block.text]
  }
}

export const linesOf = (blocks: readonly Block[]): string[] => blocks.flatMap(runsOf)

/** The same block with every text made fit to print. */
export const printableBlock = (block: Block): Block => {
  switch (block.is) {
    case 'pairs':
      return {
        ...block,
        rows: block.rows.map(([label, value]) => [printable(label), printable(value)] as const),
      }
    case 'grid':
      return { ...block, rows: block.rows.map((row) => row.map(printable)) }
    case 'table':
      return { ...block, cells: block.cells.map((cell) => cell.map(printable)) }
    case 'list':
      return { ...block, items: block.items.map(printable) }
    case 'sheet':
      return block
    case 'drawing':
      return printableDrawing(block)
    case 'prints':
      return {
        ...block,
        prints: block.prints.map((print) => ({ ...print, lines: print.lines.map(printable) })),
      }
    default:
      return { ...block, text: printable(block.text) }
  }
}

export const section = (heading: string, items: readonly string[]): Block[] => [
  { is: 'heading', text: heading },
  { is: 'list', items },
]

export const orElse = (items: readonly string[], none: string): readonly string[] =>
  items.length > 0 ? items : [none]
