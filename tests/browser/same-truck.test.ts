import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
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

/** One truck that two phones logged without a network: joined by one touch, nothing lost, parted by one touch. */
describe('one truck on two phones', () => {
  let yard: Yard
  let curt: CrewPhone
  let marisol: CrewPhone
  const both = () => [curt, marisol].map((phone) => phone.page())

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    await setUpCompany(yard, curt)
    const page = curt.page()
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
    await button(page, 'Save').click()
    await sees(page, 'No load logged yet.')
    await sees(page, 'All on the server')
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
    await sees(marisol.page(), 'No load logged yet.')
  })
  afterAll(() => yard?.close())

  const cards = (page: Page) => page.locator('.card[data-load]')
  const arrivals = (page: Page) => page.locator('.history-line[data-kind="load.arrived"]')

  test('[join] each logs it alone; on the network again both phones ask whether it is one truck', async () => {
    await curt.offline()
    await marisol.offline()
    await button(curt.page(), 'Truck is here').click()
    await button(curt.page(), 'No water').click()
    await sees(curt.page(), 'No water was added')
    await button(marisol.page(), 'Truck is here').click()
    await button(marisol.page(), 'Discharge started').click()
    await sees(marisol.page(), /Discharge started \d/)
    for (const page of both()) expect(await cards(page).count()).toBe(1)
    await curt.online()
    await marisol.online()
    for (const page of both()) {
      await sees(page, 'Loads 1 and 2 look like one truck.', 45_000)
      expect(await cards(page).count()).toBe(2)
    }
    await shoot(curt.page(), 'same-truck', true)
  })

  test('[join] one touch joins them, with all that either phone said', async () => {
    await button(curt.page(), 'Same truck: join them').click()
    for (const page of both()) {
      await eventually(() => cards(page).count()).toBe(1)
      await sees(page, 'No water was added')
      await sees(page, /Discharge started \d/)
      await sees(page, '2 answers stand')
      expect(await page.getByText('look like one truck').count()).toBe(0)
    }
    await shoot(curt.page(), 'joined', true)
  })

  test('[conflict] the two arrivals are settled by one entry that names both', async () => {
    const page = curt.page()
    await button(page, /^Settle it, starting from: Arrived/).click()
    await page
      .locator('dialog')
      .getByText(/As logged/)
      .click()
    await page.locator('dialog').getByRole('button', { name: 'Misread it' }).click()
    for (const hers of both()) {
      await eventually(() => hers.getByText('2 answers stand').count()).toBe(0)
      await eventually(() => arrivals(hers).count()).toBe(3)
      expect(await hers.locator('[data-kind="load.arrived"][data-stands="true"]').count()).toBe(1)
    }
  })

  test('[conflict] two corrections at once both stand, figures for both, until one entry settles them', async () => {
    await curt.offline()
    await marisol.offline()
    for (const [phone, clock] of [
      [curt, '0011'],
      [marisol, '0012'],
    ] as const) {
      const page = phone.page()
      await page
        .getByRole('button', { name: /^Arrived \d/ })
        .first()
        .click()
      await button(page, 'Correct').click()
      await page.locator('dialog').getByText('Another time').click()
      await fill(page, 'Clock time, like 0705', clock)
      await page.locator('dialog').getByRole('button', { name: 'Misread it' }).click()
      await page.locator('dialog').waitFor({ state: 'detached' })
    }
    await curt.online()
    await marisol.online()
    for (const page of both()) {
      await sees(page, '2 answers stand', 45_000)
      await sees(page, /Arrived 00:11/)
      await sees(page, /Arrived 00:12/)
    }
    await button(curt.page(), 'Truck left').click()
    const model = await curt.page().evaluate(async () => {
      const answer = await fetch(location.pathname.replace('/job/', '/api/jobs/'))
      return JSON.stringify((await answer.json()).model)
    })
    expect(model).toContain('00:11')
    expect(model).toContain('00:12')
    await button(curt.page(), 'Open').click()
    await button(curt.page(), /^Settle it, starting from: Arrived 00:12/).click()
    await curt
      .page()
      .locator('dialog')
      .getByText(/As logged/)
      .click()
    await curt.page().locator('dialog').getByRole('button', { name: 'Misread it' }).click()
    for (const page of both()) await eventually(() => page.getByText('2 answers stand').count()).toBe(0)
  })

  test('[join] one touch parts them again, and nothing that was logged is gone', async () => {
    const before = await arrivals(curt.page()).count()
    await button(curt.page(), 'Part again').click()
    for (const page of both()) {
      await eventually(() => cards(page).count()).toBe(2)
      await eventually(() => arrivals(page).count()).toBe(before)
      await eventually(() => page.locator('[data-kind="loads.joined"][data-stands="false"]').count()).toBe(1)
    }
    await shoot(curt.page(), 'parted', true)
  })
})
