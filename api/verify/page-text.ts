import { type Block, linesOf } from '../domain/record/page/blocks.ts'
import { footerOf, type Page } from '../domain/record/page/page.ts'

/**
 * The sheets' text against the page's lines, in order, all of it. White space is left out on both sides: where a line
 * breaks is the drawing's affair. A table that goes on over a sheet's edge bears its own head again on top of the next;
 * nothing else may be missing, changed, or there beside it.
 */
export const pageDifference = async (
  page: Page,
  read: () => Promise<readonly string[]>,
): Promise<string | undefined> => {
  let sheets: readonly string[]
  try {
    sheets = (await read()).map(bare)
  } catch {
    return 'its text cannot be read'
  }
  const bodies: string[] = []
  for (const [i, sheet] of sheets.entries()) {
    const foot = bare(footerOf(page, i + 1, sheets.length))
    if (!sheet.endsWith(foot)) return `sheet ${i + 1} does not end with its own foot`
    bodies.push(sheet.slice(0, sheet.length - foot.length))
  }
  return bodyDifference(page, bodies)
}

const bodyDifference = (page: Page, bodies: readonly string[]): string | undefined => {
  const { text: wanted, tables } = textOf(page.blocks)
  let found = ''
  for (const body of bodies) {
    const head = tables.find(({ from, to }) => from < found.length && found.length < to)?.head
    const goesOn = head !== undefined && body.startsWith(head) && !wanted.startsWith(body, found.length)
    found += goesOn ? body.slice(head.length) : body
  }
  if (found === wanted) return undefined
  const at = firstDifference(found, wanted)
  return `its text is not that of record.json: "${excerpt(found, at)}" stands where "${excerpt(wanted, at)}" belongs`
}

/** A table's head, and between which places of the page's text its rows stand. */
type Table = { readonly head: string; readonly from: number; readonly to: number }

const textOf = (blocks: readonly Block[]): { text: string; tables: readonly Table[] } => {
  const tables: Table[] = []
  let text = ''
  for (const block of blocks) {
    const own = bare(linesOf([block]).join(''))
    const head = headOf(block)
    if (head !== '') tables.push({ head, from: text.length + head.length, to: text.length + own.length })
    text += own
  }
  return { text, tables }
}

const headOf = (block: Block): string => {
  if (block.is === 'table') return bare(block.cells.slice(0, block.columns).flat().join(''))
  return block.is === 'grid' ? bare((block.rows[0] ?? []).join('')) : ''
}

const bare = (text: string): string => text.normalize('NFC').replaceAll(/[\s\u00a0]/gu, '')

const firstDifference = (a: string, b: string): number => {
  let at = 0
  while (at < a.length && a[at] === b[at]) at++
  return at
}

const excerpt = (text: string, at: number): string => text.slice(Math.max(0, at - 12), at + 12)
