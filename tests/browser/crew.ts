import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { newProfile, openBrowser, type RunningBrowser, type Size } from '../kit/browser.ts'
import { type CutLine, layLine } from '../kit/cut-line.ts'
import { newDataFolder, type RunningServer, startServerProcess } from '../kit/server.ts'
import { buildWeb } from './built.ts'

/** One phone of the crew: its profile outlives its browser, and its line to the server can be cut. */
export type CrewPhone = {
  readonly line: CutLine
  readonly page: () => Page
  readonly browser: () => RunningBrowser
  /** Kills the browser and opens it again on what the disk has. */
  killAndReopen(path: string): Promise<void>
  offline(): Promise<void>
  online(): Promise<void>
}

export type Yard = {
  readonly server: RunningServer
  phone(options?: { readonly languages?: string; readonly size?: Size }): Promise<CrewPhone>
  close(): Promise<void>
}

/** The real server on an empty folder, and as many phones as a test wants. */
export const openYard = async (): Promise<Yard> => {
  buildWeb()
  const data = await newDataFolder()
  const server = await startServerProcess({ dataFolder: data.folder })
  const endings: (() => Promise<unknown>)[] = [data.remove, server.stop]
  return {
    server,
    phone: async (options = {}) => {
      const profile = await newProfile()
      const line = await layLine(server.url)
      let running = await openBrowser(profile.folder, options)
      endings.push(profile.remove, line.close, () => running.kill())
      return {
        line,
        page: () => running.page,
        browser: () => running,
        killAndReopen: async (path) => {
          await running.kill()
          running = await openBrowser(profile.folder, options)
          await running.page.goto(line.url + path)
        },
        offline: async () => {
          line.cut()
          await running.context.setOffline(true)
        },
        online: async () => {
          line.mend()
          await running.context.setOffline(false)
        },
      }
    },
    close: async () => {
      for (const end of endings.reverse()) await end().catch((error: unknown) => console.error(error))
    },
  }
}

/** The link that the server printed, over this phone's own line. */
export const overLine = (link: string | undefined, line: CutLine): string => {
  if (!link) throw new Error('the server printed no link')
  const url = new URL(link)
  return `${line.url}${url.pathname}${url.hash}`
}

export const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first()

export const fill = (page: Page, label: string, text: string) =>
  page.getByRole('textbox', { name: label }).first().fill(text)

export const sees = (page: Page, text: string | RegExp, timeout = 15_000) =>
  page.getByText(text).filter({ visible: true }).first().waitFor({ state: 'visible', timeout })

/** What comes by itself, over the network or from another tab, in its own time. */
export const eventually = <T>(get: () => T | Promise<T>) => expect.poll(get, { timeout: 20_000 })

/** Sets the company up and leaves the phone on its empty list of jobs. */
export const setUpCompany = async (yard: Yard, phone: CrewPhone): Promise<void> => {
  const page = phone.page()
  await page.goto(overLine(yard.server.setUpLink, phone.line))
  await fill(page, 'Name of the company', 'Brindlefork Flatwork')
  await fill(page, 'Your name, as the crew calls you', 'Curt')
  await fill(page, 'Time zone', 'America/Chicago')
  await button(page, 'Set up').click()
  await page.getByRole('heading', { name: 'Brindlefork Flatwork' }).waitFor()
}

/** The service worker holds the app: from here on a cold start needs no network. */
export const shellKept = (page: Page) => page.evaluate(async () => void (await navigator.serviceWorker.ready))
