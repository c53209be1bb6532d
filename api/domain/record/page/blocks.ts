import { printable } from '../printable.ts'

/** What the page consists of, in reading order. The drawing knows nothing else, and the checker reads the same. */
export type Block =
  | { readonly is: 'title'; readonly text: string }
  | { readonly is: 'heading'; readonly text: string }
  /** A heading within a section. */
  | { readonly is: 'subheading'; readonly text: string }
  | { readonly is: 'paragraph'; readonly text: string }
  | { readonly is: 'pairs'; readonly rows: readonly (readonly [string, string])[] }
  /** Facts down, loads across; a cell is a list of lines. The first row and the first column are labels. */
  | { readonly is: 'table'; readonly columns: number; readonly cells: readonly (readonly string[])[] }
  /** One happening a row; the first row is labels. Widths are shares of the sheet's. */
  | {
      readonly is: 'grid'
      readonly widths: readonly number[]
      readonly rows: readonly (readonly string[])[]
    }
  | { readonly is: 'list'; readonly items: readonly string[] }

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
