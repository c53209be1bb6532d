import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { shoot } from '../kit/browser.ts'
import {
  button,
  type CrewPhone,
  eventually,
  fill,
  openYard,
  sees,
  setUpCompany,
  shellKept,
  type Yard,
} from './crew.ts'

let yard: Yard
let curt: CrewPhone
let page: Page

beforeAll(async () => {
  yard = await openYard()
  curt = await yard.phone()
  page = curt.page()
  page.setDefaultTimeout(15_000)
  await setUpCompany(yard, curt)
  await button(page, 'Open a new job').click()
  await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
  await button(page, 'Save').click()
  await sees(page, 'No load logged yet.')
})
afterAll(() => yard?.close())

const fold = () => page.locator('section.fold', { hasText: 'Against published limits' })
const sheet = () => page.locator('dialog')
const log = async (kind: string) => {
  await page.locator(`[data-log="${kind}"]`).first().click()
  await sheet().waitFor()
}
const save = async () => {
  await sheet().getByRole('button', { name: 'Save', exact: true }).click()
  await sheet().waitFor({ state: 'detached' })
}
const type = (label: string, text: string, nth = 0) =>
  sheet()
    .getByRole('textbox', { name: new RegExp(`^${label}(?: \\S{1,6})?$`) })
    .nth(nth)
    .fill(text)
const pick = (legend: string, option: string) =>
  sheet().getByRole('group', { name: legend, exact: true }).getByText(option, { exact: true }).click()
const spacing = () => fold().locator('[data-finding="joint-spacing"]')

/** Source of the limits: ACI 302.1R-96 (36 thicknesses, not over 18 ft); the trade’s 15 ft, from memory. */
test('[screen] an edition that is chosen is named on the screen with its values, offline too', async () => {
  await page.locator('.fold-head', { hasText: 'Job and order' }).click()
  await log('placement.planned')
  await type('Name', 'First day')
  await type('Name', 'Drive', 1)
  await type('Length', '40')
  await type('Width', '20')
  await type('Thickness', '8')
  await save()
  await fold().locator('.fold-head').click()
  await sees(page, 'Nothing logged that a published limit could stand beside.')
  await shellKept(page)
  await curt.offline()
  await page.locator('.fold-head', { hasText: 'Finish' }).first().click()
  await log('joint.sawn')
  await pick('Phase', 'ended')
  await type('Spacing', '16')
  await save()
  await eventually(() => spacing().textContent()).toContain('Saw cuts, spacing: at most 18 ft')
  expect(await spacing().textContent()).toContain(
    'cap on joint spacing: ACI 302.1R-96: 18 ft (usual, nobody chose)',
  )
  expect(await spacing().textContent()).toMatch(/16 ft · inside/)
  await log('editions.chosen')
  await sheet().locator('.fold-head').click()
  await pick('Cap on joint spacing', 'trade practice: 15 ft (from memory)')
  await shoot(page, 'published-choose', true)
  await save()
  await eventually(() => spacing().textContent()).toContain('Saw cuts, spacing: at most 15 ft')
  expect(await spacing().textContent()).toMatch(/trade practice: 15 ft \(from memory\) \(chosen, \d\d:\d\d\)/)
  expect(await spacing().textContent()).toMatch(/16 ft · outside/)
  await shoot(page, 'published', true)
})
