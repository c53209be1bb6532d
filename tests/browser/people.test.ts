import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
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

let yard: Yard
let curt: CrewPhone

/** Curt's page with the people, and the card of one of them. */
const people = async (): Promise<Page> => {
  const page = curt.page()
  await page.goto(`${curt.line.url}/people`)
  await page.getByRole('heading', { name: en.people }).waitFor()
  return page
}
const card = (page: Page, name: string) => page.locator('article.card').filter({ hasText: name }).first()

/** The question who logs. */
const asks = (page: Page) => page.getByRole('dialog', { name: en.whoLogs })

const addPerson = async (name: string, role: string): Promise<void> => {
  const page = await people()
  await button(page, en.addPerson).click()
  const sheet = page.locator('dialog')
  await sheet.getByRole('textbox').first().fill(name)
  await sheet.getByText(role, { exact: true }).click()
  await sheet.getByRole('button', { name: en.save }).click()
  await card(page, name).getByRole('button', { name: en.joinCode }).waitFor()
}

/** A phone that joins by a code for this person and use. */
const joined = async (name: string, use: string): Promise<CrewPhone> => {
  const page = await people()
  await card(page, name).getByRole('button', { name: en.joinCode }).click()
  await page.locator('dialog').getByText(use, { exact: true }).click()
  const qr = await page.locator('img.qr').getAttribute('data-text')
  await page.locator('dialog').getByRole('button', { name: en.cancel }).click()
  const phone = await yard.phone()
  await phone.page().goto(overLine(qr ?? undefined, phone.line))
  await button(phone.page(), 'Join').waitFor()
  return phone
}

beforeAll(async () => {
  yard = await openYard()
  curt = await yard.phone()
  await setUpCompany(yard, curt)
  const page = curt.page()
  await button(page, 'Open a new job').click()
  await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
  await button(page, 'Save').click()
  await sees(page, 'No load logged yet.')
  await addPerson('Marisol', en.foreman)
  await addPerson('Beto', en.crew)
})
afterAll(() => yard?.close())

describe('a phone that the crew shares', () => {
  let shared: CrewPhone

  test('[L55] says so before it joins, and asks for a name before the first entry; the tap keeps its time', async () => {
    shared = await joined('Curt', en.deviceShared)
    const page = shared.page()
    await sees(page, en.joinShared.replace('{name}', 'Curt'))
    await button(page, 'Join').click()
    await page.getByText('Pellowick').click()
    await sees(page, en.whoNobody)
    await button(page, 'Truck is here').click()
    const sheet = asks(page)
    await sheet.waitFor()
    await shoot(page, 'who-logs')
    await sheet.getByRole('button', { name: 'Beto', exact: true }).click()
    await sees(page, 'Load 1')
    await sees(page, en.whoNow.replace('{name}', 'Beto'))
    await page.locator('.history-line[data-kind="load.arrived"]').click()
    await sees(page, `Beto (${en.pickedShared})`)
    await page.locator('dialog').getByRole('button', { name: en.cancel }).click()
    await eventually(() => page.getByText(en.nothingWaits).count()).toBe(1)
  })

  test('[L55] the name stands in view within a form too, is changed on demand, and a question that is left logs nothing', async () => {
    const page = shared.page()
    await button(page, 'Gallons').click()
    await page.locator('dialog .who-bar').waitFor()
    await page.locator('dialog .who-bar').click()
    await asks(page).getByRole('button', { name: 'Marisol', exact: true }).click()
    await fill(page, 'Gallons that went in', '12')
    await page.locator('dialog').getByRole('button', { name: 'Save' }).click()
    await sees(page, en.whoNow.replace('{name}', 'Marisol'))
    await page.reload()
    await sees(page, en.whoNobody)
    await button(page, 'Discharge started').click()
    const sheet = asks(page)
    await sheet.getByRole('button', { name: en.cancel }).click()
    await eventually(() => page.locator('[data-kind="discharge.started"]').count()).toBe(0)
    await eventually(() => page.locator('[data-kind="water.added"]').count()).toBe(1)
  })

  test('[L55] after ten minutes without a touch it asks again', async () => {
    const page = shared.page()
    await page.reload()
    await page.locator('.who-bar').first().click()
    await asks(page).getByRole('button', { name: 'Beto', exact: true }).click()
    await sees(page, en.whoNow.replace('{name}', 'Beto'))
    // The phone's clock goes on; nobody touches it.
    await page.evaluate(() => {
      const now = Date.now
      Date.now = () => now() + 10 * 60_000
    })
    await asks(page).waitFor({ timeout: 10_000 })
    await asks(page).getByRole('button', { name: en.cancel }).click()
    await sees(page, en.whoNobody)
    // The sheet's own state is taken out of the history in the browser's time.
    await page.waitForFunction(() => history.state === null)
    await page.reload()
  })

  test('[L55] it offers nothing about people', async () => {
    const page = shared.page()
    await page.goto(`${shared.line.url}/people`)
    await sees(page, 'Marisol')
    for (const name of [en.addPerson, en.changeRole, en.joinCode, en.withdrawDevice])
      expect(await page.getByRole('button', { name }).count(), name).toBe(0)
  })
})

describe('roles', () => {
  test('[access] an owner changes a role, and it holds on that person’s phone by itself', async () => {
    const beto = await joined('Beto', en.devicePhone)
    await button(beto.page(), 'Join').click()
    await sees(beto.page(), 'Pellowick')
    await beto.page().goto(`${beto.line.url}/people`)
    await sees(beto.page(), 'Marisol')
    expect(await beto.page().getByRole('button', { name: en.addPerson }).count()).toBe(0)
    const page = await people()
    await card(page, 'Beto').getByRole('button', { name: en.changeRole }).click()
    await page.locator('dialog').getByText(en.foreman, { exact: true }).click()
    await page.locator('dialog').getByRole('button', { name: en.save }).click()
    const start = performance.now()
    await beto.page().getByRole('button', { name: en.addPerson }).waitFor()
    console.log(`a new role held after ${Math.round(performance.now() - start)} ms`)
    // Without an owner nobody could change it back.
    await card(page, 'Curt').getByRole('button', { name: en.changeRole }).click()
    await sees(page, en.roleLastOwner)
  })
})

describe('a withdrawn phone', () => {
  test('[L56] what it sends is counted on the owner’s page at once, is read there, and admitted or declined', async () => {
    const marisol = await joined('Marisol', en.devicePhone)
    await button(marisol.page(), 'Join').click()
    await marisol.page().getByText('Pellowick').click()
    await sees(marisol.page(), 'Load 1')
    const page = await people()
    await card(page, 'Marisol').getByRole('button', { name: en.withdrawDevice }).click()
    await button(page, en.withdrawFirst).click()
    await button(page, en.withdrawReally).click()
    await card(page, 'Marisol').getByText(en.deviceWithdrawn).waitFor()
    await eventually(() => page.getByText(en.nothingWaits).count()).toBe(1)
    await button(marisol.page(), 'Discharge ended').click()
    await button(marisol.page(), 'Truck left').click()
    await marisol.page().locator('.strip-line').click()
    await sees(marisol.page(), en.setAsideCount.replace('{count}', '2'))
    await card(page, 'Marisol')
      .getByText(en.setAsideFrom.replace('{count}', '2'))
      .waitFor({ timeout: 20_000 })
    await card(page, 'Marisol').getByRole('button', { name: en.setAsideLook }).click()
    const sheet = page.locator('dialog')
    await sheet.getByText('Pellowick').first().waitFor()
    await shoot(page, 'set-aside-decide')
    await sheet.getByRole('button', { name: en.admitChosen.replace('{count}', '0') }).click()
    await sees(page, en.chosenNone)
    await sheet.locator('.set-aside-line').filter({ hasText: 'Truck left' }).locator('input').check()
    await sheet.getByRole('button', { name: en.admitChosen.replace('{count}', '1') }).click()
    await card(page, 'Marisol').getByText(en.setAsideFrom.replace('{count}', '1')).waitFor()
    await card(page, 'Marisol').getByRole('button', { name: en.setAsideLook }).click()
    await sheet.locator('.set-aside-line').filter({ hasText: 'Discharge ended' }).locator('input').check()
    await sheet.getByRole('button', { name: en.declineChosen.replace('{count}', '1') }).click()
    const decided = en.setAsideDecided
      .replace('{admitted}', '1')
      .replace('{declined}', '1')
      .replace('{refused}', '0')
    await card(page, 'Marisol').getByText(decided).waitFor()
    await page.goto(curt.line.url)
    await page.getByText('Pellowick').click()
    await eventually(() => page.locator('[data-kind="load.left"]').count()).toBe(1)
    expect(await page.locator('[data-kind="discharge.ended"]').count()).toBe(0)
  })
})
