import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { toLocalTime } from '../../api/domain/time.ts'
import { DESK_SIZE, shoot } from '../kit/browser.ts'
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

const ZONE = 'America/Chicago'
const clockAgo = (minutes: number): string => toLocalTime(Date.now() - minutes * 60_000, ZONE).slice(11, 16)

/** A pour from the order to the cure, all of it on a phone without a network. Figures: the case of load 2, worked by hand. */
describe('a whole pour, logged offline', () => {
  let yard: Yard
  let curt: CrewPhone
  let page: Page

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    page = curt.page()
    page.setDefaultTimeout(10_000)
    await setUpCompany(yard, curt)
    await shellKept(page)
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
    await button(page, 'Save').click()
    await sees(page, 'No load logged yet.')
    await sees(page, 'All on the server')
    await curt.offline()
    await page.reload()
    await sees(page, 'No load logged yet.')
  })
  afterAll(() => yard?.close())

  /** A sheet from top to bottom: it scrolls by itself, so the window is made as tall as it is. */
  const shootSheet = async (name: string) => {
    const tall = await sheet().evaluate((dialog) => dialog.scrollHeight)
    await page.setViewportSize({ width: 390, height: Math.max(844, tall) })
    await shoot(page, name)
    await page.setViewportSize({ width: 390, height: 844 })
  }
  const sheet = () => page.locator('dialog')
  const open = async (title: string) => {
    const head = page.locator('.fold-head', { hasText: title }).first()
    if ((await head.getAttribute('aria-expanded')) === 'false') await head.click()
  }
  const log = async (kind: string) => {
    await page.locator(`[data-log="${kind}"]`).first().click()
    await sheet().waitFor()
  }
  const save = async () => {
    await sheet().getByRole('button', { name: 'Save', exact: true }).click()
    await sheet().waitFor({ state: 'detached' })
  }
  /** A field's label, with or without its unit and what is wrong with it. */
  const field = (label: string) =>
    sheet().getByRole('textbox', {
      name: new RegExp(`^${label.replaceAll('.', '\\.')}(?: \\S{1,6})?(?:\\s*⚠.*)?$`),
    })
  const type = (label: string, text: string, nth = 0) => field(label).nth(nth).fill(text)
  const touch = (name: string) => sheet().getByRole('button', { name, exact: true }).first().click()
  const choose = (legend: string, option: string) =>
    sheet()
      .getByRole('group', { name: legend, exact: true })
      .first()
      .getByText(option, { exact: true })
      .click()

  test('[forms] the order: customer, parts in rows, mix, yards', async () => {
    await open('Job and order')
    await shoot(page, 'pour-order-empty', true)
    await log('customer.named')
    await type('Name', 'Nora Pellowick')
    await save()
    await log('placement.planned')
    await sheet().getByRole('button', { name: 'Save', exact: true }).click()
    expect(await sheet().getByText('⚠ still open').count()).toBeGreaterThan(1)
    await shootSheet('pour-placement-open')
    await type('Name', 'First day')
    await type('Name', 'Drive', 1)
    await type('Length', '40')
    await type('Width', '20')
    await type('Thickness', '5')
    await touch('Add one')
    await type('Name', 'Patio', 2)
    await type('Length', '16', 1)
    await type('Width', '14', 1)
    await type('Thickness', '4', 1)
    await shootSheet('pour-placement')
    await save()
    await sees(page, /Drive/)
    await log('mix.ordered')
    await type('Code', 'QB-45A')
    await type('Strength', '4500')
    await choose('Air', 'given')
    await type('From', '5')
    await type('To', '8')
    await choose('Slump', 'target')
    await type('Target', '4', 1)
    await type('Tolerance', '1')
    await shootSheet('pour-mix')
    await save()
    await sees(page, /QB-45A/)
    await shoot(page, 'pour-order', true)
    await open('Figures of the pour')
    await sees(page, '15.11 yd³')
  })

  test('[forms] depths, one after the other, without leaving the form', async () => {
    await open('Before the pour')
    await log('depth.measured')
    for (const depth of ['5', '4 3/4', '5 1/4']) {
      await type('Depth', depth)
      if (depth === '5') await touch('Drive')
      await touch('Save and another')
      await sheet().getByText(`✓ Logged: ${depth} in · Drive`).waitFor()
      expect(await field('Depth').inputValue()).toBe('')
    }
    // A slip is pointed at once, and logged as it stands when it was meant.
    await type('Depth', '50')
    await touch('Save and another')
    await sheet().getByText('A value here is far from the usual.').waitFor()
    await shoot(page, 'pour-unusual')
    await sheet().getByRole('button', { name: 'Cancel' }).click()
    await eventually(() => page.locator('.history-line[data-kind="depth.measured"]').count()).toBe(3)
  })

  test('[forms] a load with its readings, against the order; its water by stage and part', async () => {
    await button(page, 'Truck is here').click()
    await sees(page, 'Load 1')
    await button(page, 'Log the ticket').click()
    await type('Ticket no.', '71352')
    await type('Truck', '106')
    await type('Yards of this load', '8')
    const batched = clockAgo(77)
    await type('Batched at, like 0705', batched)
    const hour = Number(batched.slice(0, 2))
    if (hour >= 10 && hour <= 12)
      await sheet()
        .getByText(hour === 12 ? 'p.m.' : 'a.m.')
        .click()
    await type('Time limit on the ticket', '90')
    await sheet().getByText('Discharge ended', { exact: true }).click()
    await sheet().locator('.fold-head').click()
    await type('Water batched', '233.6')
    await type('May be added on site', '16')
    await type('Cementitious', '580')
    await type('Most water–cement ratio', '0.45')
    await shootSheet('pour-ticket')
    await save()
    await button(page, 'Log a slump').click()
    await sheet().getByRole('button', { name: '6', exact: true }).click()
    await sheet().locator('.fold-head').click()
    await sheet().getByText('first portion', { exact: true }).click()
    await shootSheet('pour-slump')
    await sheet().getByRole('button', { name: 'Log it: cone' }).click()
    await sheet().waitFor({ state: 'detached' })
    await sees(page, /outside: asked 3 to 5 in \(order\)/)
    await log('air.measured')
    await type('Air', '5,4')
    await sheet().getByText('Read as 5.4 %').waitFor()
    await save()
    await sees(page, /inside: asked 5 to 8 % \(order\)/)
    await log('temperature.measured')
    await choose('Of', 'concrete')
    await type('Temperature', '66')
    await save()
    await button(page, 'Gallons').click()
    await type('Gallons that went in', '12')
    await choose('Stage', 'before discharge')
    await save()
    await button(page, 'Discharge started').click()
    await button(page, 'Paused').click()
    await button(page, 'More water').click()
    await type('Gallons that went in', '8')
    await choose('Stage', 'after discharge began')
    await type('Yards', '5')
    await choose('How', 'by eye')
    await type('From', '4')
    await type('To', '6')
    await shootSheet('pour-water')
    await save()
    await button(page, 'Goes on').click()
    await button(page, 'Discharge ended').click()
    await sees(page, 'Water–cement ratio, first part: 0.441')
    await sees(page, /last part: 0\.464, 0\.461 to 0\.470|last part: 0\.464, 0\.461 to 0\.47/)
    await sees(page, /By the ticket may be added 16 gal; added 20 gal: outside, 4 gal over/)
    await shoot(page, 'pour-load', true)
  })

  test('[forms] where it went, what was left, who signed; and what the load’s log leaves open', async () => {
    await log('load.placed')
    await touch('Drive')
    await choose('How', 'by eye')
    await save()
    await sees(page, /Where the load went/)
    await log('concrete.left')
    await touch('Yards: none')
    await choose('How', 'by eye')
    await save()
    await log('ticket.signed')
    await touch('Curt')
    await choose('Exception written', 'none')
    await save()
    await sees(page, /Ticket signed: .*Curt/)
    const card = page.locator('.card[data-load]')
    await card.locator('.fold-head', { hasText: 'This log does not say' }).click()
    await sees(page, 'cylinders: not recorded')
    await card.locator('.fold-head', { hasText: 'More of this load' }).click()
    await log('load.rejected')
    await choose('Reason', 'late')
    await shootSheet('pour-rejected')
    await sheet().getByRole('button', { name: 'Cancel' }).click()
    await shoot(page, 'pour-load-end', true)
  })

  test('[forms] the finish by part, one touch a step', async () => {
    await open('Finish and cure')
    const pad = page.locator('[aria-label="Touch a step when it happens"]')
    await pad.getByRole('button', { name: 'Drive' }).click()
    for (const step of ['float', 'bleed-water-gone', 'broom', 'cure', 'saw-start']) {
      await pad.locator(`[data-step="${step}"]`).click()
      await pad.getByRole('status').waitFor()
    }
    await eventually(() => page.locator('.history-line[data-kind="finish.done"]').count()).toBe(3)
    await sees(page, /Finishing: broom · Drive/)
    await log('cover.placed')
    await choose('What', 'blankets')
    await choose('On or off', 'on')
    await save()
    await sees(page, /Cover: blankets, on/)
    await open('Weather and temperatures')
    await log('weather.observed')
    await choose('Source', 'weather service')
    await type('Air', '60')
    await type('Wind', '16')
    await save()
    await sees(page, /weather service/)
    await shoot(page, 'pour-finish', true)
  })

  test('[forms] a correction starts from what was logged and keeps what is not touched', async () => {
    await open('Job and order')
    await page
      .getByRole('button', { name: /QB-45A/ })
      .first()
      .click()
    await button(page, 'Correct').click()
    expect(await sheet().getByRole('textbox', { name: 'Code', exact: true }).inputValue()).toBe('QB-45A')
    await type('Code', 'QB-45B')
    await sheet().getByRole('button', { name: 'Typed wrong' }).click()
    await sees(page, /QB-45B.*4500 psi/)
    await sees(page, /inside: asked 5 to 8 % \(order\)/)
    await eventually(() => page.locator('[data-kind="mix.ordered"][data-stands="false"]').count()).toBe(1)
  })

  test('[photos] several at once, with what they show and where', async () => {
    await page
      .locator('.card', { has: page.locator('[data-shows="defect"]') })
      .getByRole('button', { name: 'Several photos' })
      .click()
    await touch('Pick photos')
    await sheet().getByText('⚠ still open').first().waitFor()
    await choose('What does the photo show?', 'base')
    await touch('Drive')
    await type('Where', 'north edge')
    const photos = await Promise.all(['#b6b0a4', '#8d8a83', '#6f6c66'].map(picture))
    await sheet()
      .locator('input[data-several]')
      .setInputFiles([
        ...photos.map((buffer, i) => ({ name: `base-${i}.jpg`, mimeType: 'image/jpeg', buffer })),
        { name: 'song.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('la la la') },
      ])
    await sheet().getByText('Photos kept: 3 of 4').waitFor()
    await sheet()
      .getByText(/song\.jpg/)
      .waitFor()
    await shootSheet('pour-photos')
    await sheet().getByRole('button', { name: 'Cancel' }).click()
    await eventually(() => page.locator('.photo').count()).toBe(3)
    await sees(page, /base, Drive, north edge/)
  })

  test('[forms] on the network again every entry of it is taken, and none is refused', async () => {
    await curt.online()
    await sees(page, 'All on the server', 60_000)
    expect(await page.getByText('not taken by the server').count()).toBe(0)
    const hidden = await page.locator('.state').allInnerTexts()
    expect(hidden.filter((text) => text.includes('on this phone'))).toEqual([])
    await page.emulateMedia({ colorScheme: 'dark' })
    await shoot(page, 'pour-dark', true)
    await page.emulateMedia({ colorScheme: 'light' })
  })

  test('[office] the desk shows the same pour: readings, water and what is open, and its entries open', async () => {
    const desk = await curt.browser().newPage()
    await desk.setViewportSize(DESK_SIZE)
    await desk.goto(`${curt.line.url}/office`)
    const table = desk.locator('table')
    await table.getByText('5.4 % · inside: asked 5 to 8 % (order)').waitFor()
    const text = (await table.textContent()) ?? ''
    for (const said of [
      'last part: 0.464',
      'outside, 4 gal over',
      'Ticket signed',
      'cylinders: not recorded',
    ])
      expect(text).toContain(said)
    await desk.locator('.fold-head', { hasText: 'Job and order' }).click()
    await desk.getByRole('button', { name: /QB-45B/ }).click()
    await button(desk, 'Correct').waitFor()
    await shoot(desk, 'pour-office-entry')
    await button(desk, 'Cancel').click()
    await shoot(desk, 'pour-office', true)
    await desk.close()
  })
})

const picture = (colour: string): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: colour } })
    .jpeg()
    .toBuffer()
