import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { en } from '../../api/domain/words/en.ts'
import { es } from '../../api/domain/words/es.ts'
import { button, type CrewPhone, fill, openYard, sees, setUpCompany, type Yard } from './crew.ts'
import { leftInEnglish } from './left-in-english.ts'
import { axeFindings, smallTargets } from './look.ts'

const WORDS = { en, es } as const
const GROUNDS = ['day', 'noon', 'night', 'dawn'] as const
type Language = keyof typeof WORDS

/** Every screen of a pour: axe finds nothing, in both languages and on each ground; and a knuckle hits what it aims at. */
describe('within reach', () => {
  let yard: Yard
  let curt: CrewPhone
  let page: Page
  let jobUrl: string

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    page = curt.page()
    page.setDefaultTimeout(10_000)
    await setUpCompany(yard, curt)
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Tern Court')
    await button(page, 'Save').click()
    await sees(page, 'No load logged yet.')
    jobUrl = page.url()
  })
  afterAll(() => yard?.close())

  const sheet = () => page.locator('dialog')
  const leave = async () => {
    await sheet().locator('.sheet-head button').click()
    await sheet().waitFor({ state: 'detached' })
  }

  /** On each ground axe finds nothing, and every target is large and apart, where hands are wet. */
  const looks = async (name: string, wet = true) => {
    for (const ground of GROUNDS) {
      await page.evaluate((to) => {
        document.documentElement.dataset.ground = to
      }, ground)
      expect(await axeFindings(page), `${name}, ${ground}`).toEqual([])
    }
    if (wet) expect(await smallTargets(page), name).toEqual([])
    if ((await page.locator('html').getAttribute('lang')) === 'es')
      expect(await leftInEnglish(page), name).toEqual([])
  }
  const speak = async (language: Language, url: string) => {
    await page.evaluate((to) => localStorage.setItem('screedbook-language', to), language)
    await page.goto(url)
    await page.locator('main').waitFor()
  }

  for (const language of ['en', 'es'] as const) {
    const w = WORDS[language]
    const inDock = (name: string) => page.locator('.dock').getByRole('button', { name, exact: true })

    test(`[reach] jobs, people and the office, ${language}`, async () => {
      await speak(language, curt.line.url)
      await looks('jobs')
      await page.locator('.strip-line').click()
      await looks('strip')
      await speak(language, `${curt.line.url}/people`)
      await looks('people')
      await speak(language, `${curt.line.url}/office`)
      await sees(page, w.makeRecord)
      await looks('office', false)
    })

    test(`[reach] a truck from here to gone, with its pads and the read-out, ${language}`, async () => {
      await speak(language, jobUrl)
      await inDock(w.truckHere).waitFor()
      await looks('no truck')
      await inDock(w.truckHere).click()
      await sees(page, language === 'en' ? en.waterBefore : es.waterBefore)
      await looks('here')
      for (const label of [w.slump, w.shortAir, w.shortDegrees, w.water]) {
        await inDock(label).click()
        await sheet().waitFor()
        await looks(label)
        await leave()
      }
      await inDock(w.waterNone).click()
      await inDock(w.dischargeStarted).click()
      await inDock(w.dischargeEnded).waitFor()
      await looks('discharging')
      await inDock(w.slump).click()
      await sheet().getByRole('button', { name: '4 1/2', exact: true }).click()
      await looks('slump picked')
      await sheet().getByRole('button', { name: w.logByEye }).click()
      await sheet().waitFor({ state: 'detached' })
      await inDock(w.dischargeEnded).click()
      await inDock(w.readBefore).waitFor()
      await looks('emptied')
      await inDock(w.leftInDrum).click()
      await sheet().waitFor()
      await looks('left over')
      await leave()
      await inDock(w.readBefore).click()
      await sheet().locator('.read-out').waitFor()
      await looks('read-out')
      await leave()
      await inDock(w.truckLeft).click()
      await page.locator('.dock-blanks').click()
      await looks('blanks')
      await sheet().locator('[data-blank="ticket"]').first().click()
      await sheet().locator('input').first().waitFor()
      await looks('ticket')
      // Left, it goes back to the blanks.
      await sheet().locator('.sheet-head button').click()
      await sheet().locator('.blanks').waitFor()
      await leave()
      await page.locator('.history-line[data-kind="slump.measured"]').last().click()
      await sheet().locator('.facts').first().waitFor()
      await looks('entry')
      await sheet().getByRole('button', { name: w.correct, exact: true }).click()
      await sheet().locator('form').waitFor()
      await looks('correction')
      await leave()
      const folded = page.locator('main .fold-head[aria-expanded="false"]')
      while ((await folded.count()) > 0) await folded.first().click()
      await looks('the whole job, opened')
    })
  }
})
