import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { buildWeb } from '../browser/built.ts'
import { button, eventually, sees } from '../browser/crew.ts'
import { newProfile, openBrowser, type RunningBrowser } from '../kit/browser.ts'
import { newDataFolder, type RunningServer, startServerProcess } from '../kit/server.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const run = (args: readonly string[], env: Record<string, string> = {}) =>
  spawnSync(process.execPath, ['api/cli/screedbook.js', ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    timeout: 60_000,
    env: { ...process.env, ...env },
  })
const linkOf = (server: RunningServer, name: string): string | undefined =>
  new RegExp(`^ {2}${name}, \\w+ +(http\\S+/join#\\S+)$`, 'm').exec(server.printed())?.[1]

let data: Awaited<ReturnType<typeof newDataFolder>>
let folder: string
let serving: RunningServer
let firstStartMs: number
beforeAll(async () => {
  buildWeb()
  data = await newDataFolder()
  folder = path.join(data.folder, 'demo')
  const from = performance.now()
  serving = await startServerProcess({
    command: 'demo',
    dataFolder: folder,
    // A database that nobody runs: the demonstration has its own.
    env: { DATABASE_URL: 'postgres://nobody@127.0.0.1:1/nothing' },
  })
  firstStartMs = performance.now() - from
})
afterAll(async () => {
  await serving?.stop()
  await data?.remove()
})

describe('screedbook demo', () => {
  test('serves a built job within the minute, with a link for each of three people', () => {
    expect(firstStartMs).toBeLessThan(60_000)
    for (const name of ['Curt', 'Marisol', 'Beto']) expect(linkOf(serving, name)).toMatch(/^http:/)
    expect(serving.printed()).toContain('DATABASE_URL is left alone')
  })

  test('its record is exported and verified by the usual commands', () => {
    const out = path.join(data.folder, 'tern-court.zip')
    const exported = run(['export', 'Tern Court', '--out', out], { DATA: folder })
    expect([exported.status, exported.stderr]).toEqual([0, ''])
    const verified = run(['verify', out])
    expect(verified.stdout).toContain('photos 21')
    expect(verified.stdout).toContain('holds: every file, entry, signature and figure')
    expect(verified.status).toBe(0)
  })

  test.each([
    ['en-US,en', 'Curt', 'Join', 'People and places here are invented.'],
    ['es-MX,es', 'Beto', 'Unirme', 'La gente y los lugares son inventados.'],
  ] as const)('[L12] says DEMO before and after joining, in %s', async (languages, name, join, words) => {
    const profile = await newProfile()
    let browser: RunningBrowser | undefined
    try {
      browser = await openBrowser(profile.folder, { languages })
      const { page } = browser
      await page.goto(linkOf(serving, name)!)
      await sees(page, `DEMO ${words}`)
      await button(page, join).click()
      await sees(page, 'Tern Court')
      await sees(page, `DEMO ${words}`)
      for (const place of ['people', 'office', 'job/019d8d20-7000-7000-8000-00000000ce11']) {
        await page.goto(`${serving.url}/${place}`)
        await sees(page, `DEMO ${words}`)
        await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight))
        // The page may still be putting itself together; then it has no place yet.
        const mark = page.getByText(`DEMO ${words}`).first()
        await eventually(async () => (await mark.boundingBox())?.y ?? -1).toBeGreaterThanOrEqual(0)
      }
    } finally {
      await browser?.close()
      await profile.remove()
    }
  })

  test('a second start finds the same job and gives new links', async () => {
    const before = linkOf(serving, 'Marisol')
    await serving.stop()
    serving = await startServerProcess({ command: 'demo', dataFolder: folder })
    expect(serving.printed()).not.toContain('Building')
    expect(linkOf(serving, 'Marisol')).not.toBe(before)
    const out = path.join(data.folder, 'again.zip')
    expect(run(['export', 'Tern Court', '--out', out], { DATA: folder }).status).toBe(0)
  })

  test('a database that outlived its folder is told of, with what to remove', async () => {
    await serving.stop()
    // As after `rm -r demo-data` where the database lies elsewhere: a new folder and a new key meet the old log.
    writeFileSync(path.join(folder, 'DEMO.txt'), 'A demonstration of Screedbook goes here.\n')
    rmSync(path.join(folder, 'master.key'))
    const refused = run(['demo'], { DATA: folder, PORT: '0' })
    expect(refused.status).toBe(1)
    expect(refused.stderr).toContain(`is still there. Remove ${folder}`)
  })
})

describe('a folder that is not the demonstration’s', () => {
  test('is left as it is, with a sentence that says what to do', () => {
    const other = path.join(data.folder, 'real')
    mkdirSync(other)
    writeFileSync(path.join(other, 'master.key'), 'somebody’s')
    const refused = run(['demo'], { DATA: other, PORT: '0' })
    expect(refused.status).toBe(1)
    expect(refused.stderr).toContain('holds something already that is no demonstration')
    expect(readFileSync(path.join(other, 'master.key'), 'utf8')).toBe('somebody’s')
  })

  test('one where a build was broken off is not served as if it were whole', () => {
    const half = path.join(data.folder, 'half')
    mkdirSync(half)
    writeFileSync(path.join(half, 'DEMO.txt'), 'A demonstration of Screedbook is being built here.\n')
    writeFileSync(
      path.join(half, 'WHERE.txt'),
      'The database of this folder is kept in\n/elsewhere/half\nsince …\n',
    )
    const refused = run(['demo'], { DATA: half, PORT: '0' })
    expect(refused.status).toBe(1)
    expect(refused.stderr).toContain(`Remove ${half} and /elsewhere/half, and start again`)
  })
})
