import { mkdir } from 'node:fs/promises'
import path from 'node:path'
import { parseArgs } from 'node:util'
import type { Page } from 'playwright-core'
import { toLocalTime } from '../../api/domain/time.ts'
import { en } from '../../api/domain/words/en.ts'
import { es } from '../../api/domain/words/es.ts'
import { newProfile, openBrowser, type Size } from '../kit/browser.ts'
import { newDataFolder, startServerProcess } from '../kit/server.ts'
import { buildWeb } from './built.ts'

/**
 * Every screen of a pour, at each size, in both languages and on each ground, for somebody to look at:
 * `npm run screens -- --out DIR`. `--only 390-en-day` takes those whose name begins so.
 */
const { values } = parseArgs({
  options: { out: { type: 'string' }, only: { type: 'string', default: '' } },
})
if (!values.out) throw new Error('say where to: npm run screens -- --out DIR')
const OUT = path.resolve(values.out)

const SIZES: readonly Size[] = [
  { width: 360, height: 640 },
  { width: 390, height: 844 },
  { width: 768, height: 1024 },
  { width: 844, height: 390 },
  { width: 1440, height: 900 },
]
const WORDS = { en, es } as const
const RUNS = (['en', 'es'] as const).flatMap((language) =>
  (['day', 'noon', 'night', 'dawn'] as const).map((ground) => ({ language, ground })),
)
const JOB = '019d8d20-7000-7000-8000-00000000ce11'

const wanted = (size: Size, run: (typeof RUNS)[number]): boolean => {
  const name = `${size.width}-${run.language}-${run.ground}`
  return name.startsWith(values.only)
}

const oneRun = async (page: Page, url: string, run: (typeof RUNS)[number]): Promise<number> => {
  const w = WORDS[run.language]
  const sizes = SIZES.filter((size) => wanted(size, run))
  if (sizes.length === 0) return 0
  let shots = 0
  const shoot = async (name: string, whole = false): Promise<void> => {
    for (const size of sizes) {
      await page.setViewportSize(size)
      const file = `${size.width}-${run.language}-${run.ground}-${name}.png`
      await page.screenshot({ path: path.join(OUT, file), fullPage: whole })
      shots++
    }
  }
  const press = (name: string) =>
    page.getByRole('button', { name, exact: true }).filter({ visible: true }).last().click()
  const quick = async (name: string, label: string) => {
    await page.locator('.dock-readings').getByRole('button', { name: label, exact: true }).click()
    await page.locator('dialog').waitFor()
    await shoot(name)
    await page.locator('dialog .sheet-head button').click()
    await page.locator('dialog').waitFor({ state: 'detached' })
  }
  await page.evaluate(
    ({ language, ground }) => {
      localStorage.setItem('screedbook-language', language)
      localStorage.setItem('screedbook-ground', ground)
    },
    { language: run.language, ground: run.ground },
  )
  await page.goto(url)
  await page.getByText('Tern Court').waitFor()
  await shoot('01-jobs')
  for (const [at, name] of [
    ['/people', '02-people'],
    ['/office', '03-office'],
  ] as const) {
    await page.goto(url + at)
    await page.locator('main').waitFor()
    await page.waitForLoadState('networkidle')
    await shoot(name)
  }
  await page.goto(`${url}/job/${JOB}`)
  await page.getByText('71352').first().waitFor()
  await page.waitForLoadState('networkidle')
  await shoot('10-no-truck')
  await shoot('11-whole-job', true)
  await page.locator('.dock-blanks').click()
  await page.locator('dialog').waitFor()
  await shoot('12-blanks')
  await page.locator('dialog .sheet-head button').click()
  await page.locator('dialog').waitFor({ state: 'detached' })
  await press(w.truckHere)
  await page.locator('.dock-water').waitFor()
  await shoot('20-here')
  await page.locator('.card[data-load]').first().getByRole('button', { name: w.logTicket }).click()
  await page.locator('dialog input').first().waitFor()
  await shoot('21-ticket')
  const fields = page.locator('dialog input[type=text]')
  const batched = toLocalTime(Date.now() - 40 * 60_000, 'America/Chicago').slice(11, 16)
  const texts = ['71390', '218', '8', batched, '90']
  for (const [i, text] of texts.entries()) await fields.nth(i).fill(text)
  const hour = Number(batched.slice(0, 2))
  if (hour >= 10 && hour <= 12)
    await page
      .locator('dialog')
      .getByText(hour === 12 ? w.pm : w.am, { exact: true })
      .click()
  await page.locator('dialog').getByText(w.dischargeEnded, { exact: true }).click()
  await press(w.save)
  await page.locator('dialog').waitFor({ state: 'detached' })
  await press(w.waterNone)
  await page.locator('.dock-water').waitFor({ state: 'detached' })
  await press(w.dischargeStarted)
  await page.locator('.rail-tag[data-stage="discharging"]').waitFor()
  await shoot('22-discharging')
  await quick('30-slump', w.slump)
  await quick('31-air', w.shortAir)
  await quick('32-degrees', w.shortDegrees)
  await quick('33-water', w.water)
  await page.locator('.strip-line').click()
  await shoot('34-strip')
  await page.locator('.strip-line').click()
  await page.waitForTimeout(1_000)
  await press(w.dischargeEnded)
  await page.locator('.rail-tag[data-stage="emptied"]').waitFor()
  await shoot('40-emptied')
  await press(w.readBefore)
  await page.locator('dialog .read-out').waitFor()
  await shoot('41-read-out')
  await page.locator('dialog .sheet-head button').click()
  await page.locator('dialog').waitFor({ state: 'detached' })
  await press(w.truckLeft)
  await page.locator('.dock-blanks').waitFor()
  await page.locator('.history-line').last().click()
  await page.locator('dialog .facts').first().waitFor()
  await shoot('50-entry')
  await page.locator('dialog .sheet-head button').click()
  await page.locator('dialog').waitFor({ state: 'detached' })
  return shots
}

buildWeb()
await mkdir(OUT, { recursive: true })
const data = await newDataFolder()
const server = await startServerProcess({ command: 'demo', dataFolder: path.join(data.folder, 'demo') })
const profile = await newProfile()
const browser = await openBrowser(profile.folder)
try {
  const link = /^ {2}Curt, \w+ +(http\S+)$/m.exec(server.printed())![1]!
  await browser.page.goto(link)
  await browser.page.getByRole('button', { name: 'Join' }).click()
  await browser.page.getByText('Tern Court').waitFor()
  let shots = 0
  for (const run of RUNS) shots += await oneRun(browser.page, server.url, run)
  process.stdout.write(`${shots} screens in ${values.out}\n`)
} finally {
  await browser.close()
  await profile.remove()
  await server.stop()
  await data.remove()
}
