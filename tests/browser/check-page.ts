import { readdirSync, statSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import type { BrowserContext, CDPSession, Page } from 'playwright-core'
import { buildPage, PAGE_FILE } from '../../api/verify/page/build.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** Builds the checker's page where its sources are newer than what was built. */
export const builtPage = async (): Promise<string> => {
  const timeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0
  const sources = ['api/verify', 'api/domain'].flatMap((folder) =>
    readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.parentPath.includes(`${path.sep}dist`))
      .map((entry) => path.join(entry.parentPath, entry.name)),
  )
  if (Math.max(...sources.map(timeOf)) > timeOf(PAGE_FILE)) await buildPage()
  return PAGE_FILE
}

/** Opens the page from the disk with the network cut, and counts what it asks of the network all the same. */
export const openCheckPage = async (
  context: BrowserContext,
  page: Page,
): Promise<{ readonly asked: string[]; readonly errors: string[]; readonly cdp: CDPSession }> => {
  const [asked, errors]: [string[], string[]] = [[], []]
  await context.setOffline(true)
  page.on('request', (request) => {
    if (!/^(?:file|blob|data):/.test(request.url())) asked.push(request.url())
  })
  page.on('pageerror', (error) => errors.push(String(error)))
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') errors.push(message.text())
  })
  await page.goto(pathToFileURL(await builtPage()).href)
  return { asked, errors, cdp: await context.newCDPSession(page) }
}

/** Gives the page a file by its path, as a person does who picks it: the browser reads it by itself. */
export const giveFile = async (cdp: CDPSession, file: string): Promise<void> => {
  const { root } = await cdp.send('DOM.getDocument')
  const { nodeId } = await cdp.send('DOM.querySelector', { nodeId: root.nodeId, selector: '#pick' })
  await cdp.send('DOM.setFileInputFiles', { nodeId, files: [file] })
}

export type PageSays = {
  readonly holds: boolean
  readonly findings: readonly { readonly code: string; readonly file: string }[]
  readonly groups: Readonly<Record<string, string>>
  readonly entries: readonly string[]
}

/** What the page shows, once it shows anything. */
export const verdictOf = async (page: Page, timeout = 60_000): Promise<PageSays> => {
  await page.waitForSelector('#verdict, #trouble', { timeout })
  const trouble = await page.$('#trouble')
  if (trouble) throw new Error(`the page says: ${await trouble.textContent()}`)
  // One array of plain values: a bundler's helper functions don't exist inside the page.
  const [holds, findings, groups, entries] = await page.evaluate(
    () =>
      [
        document.getElementById('verdict')?.dataset.holds === 'yes',
        [...document.querySelectorAll<HTMLElement>('[data-code]')].map((one) => ({
          code: one.dataset.code ?? '',
          file: one.dataset.file ?? '',
        })),
        [...document.querySelectorAll<HTMLElement>('[data-group]')].map(
          (one) => [one.dataset.group ?? '', one.dataset.is ?? ''] as const,
        ),
        [...document.querySelectorAll<HTMLElement>('[data-count]')].map((one) => one.dataset.is ?? ''),
      ] as const,
  )
  return { holds, findings, groups: Object.fromEntries(groups), entries }
}
