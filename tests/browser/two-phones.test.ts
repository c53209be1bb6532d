import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { toLocalTime } from '../../api/domain/time.ts'
import { en } from '../../api/domain/words/en.ts'
import { shoot } from '../kit/browser.ts'
import {
  button,
  type CrewPhone,
  eventually,
  fill,
  openYard,
  overLine,
  sees,
  setUpCompany,
  type Yard,
} from './crew.ts'

/** A clock time that lies behind on every hour of the day at which this is run. */
const EVENING = Number(toLocalTime(Date.now(), 'America/Chicago').slice(11, 13)) >= 20
const CLOCK = EVENING ? '1945' : '0015'
const SHOWN = EVENING ? '19:45' : '00:15'

/** Two phones on one load, and what happens when a phone can't keep or a server won't take. */
describe('two phones on one load', () => {
  let yard: Yard
  let curt: CrewPhone
  let marisol: CrewPhone

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    await setUpCompany(yard, curt)
    const page = curt.page()
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
    await button(page, 'Save').click()
    await button(page, 'Truck is here').click()
    await sees(page, 'Load 1')
    await sees(page, en.nothingWaits)
    const job = new URL(page.url()).pathname
    await page.goto(`${curt.line.url}/people`)
    await button(page, 'Join code').click()
    await page.getByText('Phone', { exact: true }).last().click()
    const qr = await page.locator('img.qr').getAttribute('data-text')
    await page.goto(curt.line.url + job)
    marisol = await yard.phone()
    await marisol.page().goto(overLine(qr ?? undefined, marisol.line))
    await button(marisol.page(), 'Join').click()
    await marisol.page().getByText('Pellowick').click()
    await sees(marisol.page(), 'Load 1')
  })
  afterAll(() => yard?.close())

  const times = (page: Page) =>
    page.locator('[aria-label="Times of this load"] .answer-value').allTextContents()

  test('two answers to one question both stand, on both phones, until one entry settles them', async () => {
    await curt.offline()
    await marisol.offline()
    await button(curt.page(), 'Discharge started').click()
    await marisol.page().getByRole('button', { name: 'Discharge started: Another time' }).click()
    await fill(marisol.page(), 'Clock time, like 0705', CLOCK)
    // Before the truck came: asked once, and logged as it stands.
    await marisol.page().locator('dialog').getByRole('button', { name: 'Save' }).click()
    await sees(marisol.page(), en.oddStampOrder.replace('{time}', SHOWN))
    await marisol.page().locator('dialog').getByRole('button', { name: 'Save' }).click()
    await sees(marisol.page(), `Discharge started ${SHOWN}`)
    await curt.online()
    await marisol.online()
    for (const phone of [curt, marisol]) {
      await sees(phone.page(), '2 answers stand', 30_000)
      expect((await times(phone.page())).filter((text) => text.startsWith('Discharge started'))).toHaveLength(
        2,
      )
    }
    await shoot(curt.page(), 'conflict', true)
    await button(curt.page(), new RegExp(`^Settle it, starting from: Discharge started .*${SHOWN}`)).click()
    await curt
      .page()
      .locator('dialog')
      .getByText(/As logged/)
      .click()
    await curt.page().locator('dialog').getByRole('button', { name: 'Misread it' }).click()
    await sees(curt.page(), en.oddStampOrder.replace('{time}', SHOWN))
    await curt.page().locator('dialog').getByRole('button', { name: 'Misread it' }).click()
    for (const phone of [curt, marisol]) {
      await eventually(() => phone.page().getByText('2 answers stand').count()).toBe(0)
      expect((await times(phone.page())).filter((text) => text.startsWith('Discharge started'))).toHaveLength(
        1,
      )
      // Nothing is lost: both first values are in the history, struck through.
      const struck = phone.page().locator('.history-line[data-stands="false"]')
      await eventually(() => struck.count()).toBe(2)
    }
  })

  test('what could not be kept is said loudly, and is not shown as logged', async () => {
    const page = curt.page()
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('the disk is full', 'QuotaExceededError')
      }
    })
    await button(page, 'Discharge ended').click()
    await sees(page, en.notKept)
    await sees(page, /QuotaExceededError/)
    const box = await page.getByText(en.notKept, { exact: true }).boundingBox()
    expect(box?.y).toBeGreaterThanOrEqual(0)
    expect(box?.y).toBeLessThan(400)
    await shoot(page, 'alarm')
    expect(await times(page)).not.toContainEqual(expect.stringContaining('Discharge ended'))
    // In a form too: it stays open with what was typed.
    await button(page, en.understood).click()
    await button(page, 'Gallons').click()
    await fill(page, 'Gallons that went in', '12')
    await page.locator('dialog').getByRole('button', { name: 'Save' }).click()
    await page.locator('dialog').getByText(en.notKept, { exact: true }).waitFor()
    expect(await page.getByRole('textbox', { name: 'Gallons that went in' }).inputValue()).toBe('12')
    await page.reload()
    await sees(page, 'Load 1')
    await button(page, 'Discharge ended').click()
    await eventually(() => times(page)).toContainEqual(expect.stringMatching(/^Discharge ended /))
  })

  test('a file that is no photo is not taken, and says why', async () => {
    const page = curt.page()
    await page.locator('.card[data-load] input[data-shows="load"]').setInputFiles({
      name: 'song.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from('la la la'),
    })
    await sees(page, en.problemPhotoKind)
    expect(await page.locator('.photo').count()).toBe(0)
  })

  test('an entry that the server refuses stays on the phone with the sentence that says why', async () => {
    const page = curt.page()
    // As a server would that knows better: the phone's own push, answered with a refusal.
    await page.route('**/api/push', async (route) => {
      const { entries } = route.request().postDataJSON() as { entries: unknown[] }
      const verdicts = entries.map(() => ({ is: 'refused', code: 'entry-thread', at: '' }))
      await route.fulfill({ json: { verdicts, size: 0, serverTime: Date.now() } })
    })
    await button(page, 'Truck left').click()
    await sees(page, en.lookHere)
    await page.unroute('**/api/push')
    await page.locator('.strip-line').click()
    await sees(page, en.problemEntryThread)
    expect(await times(page)).not.toContainEqual(expect.stringContaining('Truck left'))
    await shoot(page, 'refused')
  })
})
