import { footerOf, type Page, pageLines } from '../domain/record/page/page.ts'

/**
 * The sheets' text against the page's lines, in order, all of it. White space is left out on both sides: where a line
 * breaks is the drawing's affair. Nothing else may be missing, changed, or there beside it.
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
  const [found, wanted] = [bodies.join(''), bare(pageLines(page).join(''))]
  if (found === wanted) return undefined
  const at = firstDifference(found, wanted)
  return `its text is not that of record.json: "${excerpt(found, at)}" stands where "${excerpt(wanted, at)}" belongs`
}

const bare = (text: string): string => text.normalize('NFC').replaceAll(/[\s\u00a0]/gu, '')

const firstDifference = (a: string, b: string): number => {
  let at = 0
  while (at < a.length && a[at] === b[at]) at++
  return at
}

const excerpt = (text: string, at: number): string => text.slice(Math.max(0, at - 12), at + 12)
