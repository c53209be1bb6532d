import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { mkdir, mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'

export const OUT = fileURLToPath(new URL('../out/', import.meta.url))

export type Size = { readonly width: number; readonly height: number }
export const PHONE_SIZE: Size = { width: 390, height: 844 }
export const DESK_SIZE: Size = { width: 1440, height: 900 }

/** A browser in a process of its own, on a profile folder of its own, so that killing it and coming back are real. */
export type RunningBrowser = {
  readonly context: BrowserContext
  readonly page: Page
  newPage(): Promise<Page>
  /** SIGKILL to the whole browser: nothing gets to tidy up. */
  kill(): Promise<void>
  close(): Promise<void>
}

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--hide-scrollbars',
  '--remote-debugging-port=0',
]

export const newProfile = async (): Promise<{ folder: string; remove: () => Promise<void> }> => {
  const folder = await mkdtemp(path.join(tmpdir(), 'screedbook-phone-'))
  return { folder, remove: () => rm(folder, { recursive: true, force: true, maxRetries: 5 }) }
}

export const openBrowser = async (
  profile: string,
  options: { readonly size?: Size; readonly languages?: string } = {},
): Promise<RunningBrowser> => {
  const size = options.size ?? PHONE_SIZE
  await rm(path.join(profile, 'DevToolsActivePort'), { force: true })
  const args = [
    ...FLAGS,
    `--user-data-dir=${profile}`,
    `--accept-lang=${options.languages ?? 'en-US,en'}`,
    `--window-size=${size.width},${size.height}`,
    'about:blank',
  ]
  const child = spawn(await findChromium(), args, { stdio: 'ignore', detached: true })
  const browser = await connect(child, profile)
  const context = browser.contexts()[0]!
  const page = context.pages()[0] ?? (await context.newPage())
  await page.setViewportSize(size)
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    // Its own process group: helpers of the browser must not write on after their parent is gone.
    if (child.exitCode === null && child.signalCode === null && child.pid) process.kill(-child.pid, signal)
    await ended
    await browser.close().catch(() => {})
  }
  return {
    context,
    page,
    newPage: async () => {
      const another = await context.newPage()
      await another.setViewportSize(size)
      return another
    },
    kill: () => end('SIGKILL'),
    close: () => end('SIGTERM'),
  }
}

const connect = async (child: ChildProcess, profile: string): Promise<Browser> => {
  for (let i = 0; i < 300; i++) {
    if (child.exitCode !== null) throw new Error(`the browser ended (${child.exitCode}) before it served`)
    const port = await readFile(path.join(profile, 'DevToolsActivePort'), 'utf8').catch(() => '')
    const [number, endpoint] = port.split('\n')
    if (number && endpoint) return chromium.connectOverCDP(`ws://127.0.0.1:${number}${endpoint}`)
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Error('the browser did not say where it listens')
}

const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/opt/google/chrome/chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

/** `CHROMIUM_PATH`, or one that is installed, or the one that comes out of npm. */
const findChromium = async (): Promise<string> => {
  const named = process.env.CHROMIUM_PATH ?? INSTALLED.find((file) => existsSync(file))
  if (named) return named
  const { default: packed } = await import('@sparticuz/chromium')
  return packed.executablePath()
}

/** What is in view; `whole` takes the page from top to bottom. */
export const shoot = async (page: Page, name: string, whole = false): Promise<void> => {
  // A tab behind another is not drawn.
  await page.bringToFront()
  await mkdir(OUT, { recursive: true })
  await page.screenshot({ path: path.join(OUT, `${name}.png`), fullPage: whole })
}
