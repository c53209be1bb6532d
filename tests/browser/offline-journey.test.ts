import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { JobModel } from '../../api/domain/record/job-model.ts'
import { toLocalTime } from '../../api/domain/time.ts'
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
  shellKept,
  type Yard,
} from './crew.ts'

const ZONE = 'America/Chicago'
const BATCHED_AGO = 25
const clockAgo = (minutes: number): string => toLocalTime(Date.now() - minutes * 60_000, ZONE).slice(11, 16)

/** The promise of the first issue: a load logged without a network is there after the battery died, and once. */
describe('a load logged offline', () => {
  let yard: Yard
  let curt: CrewPhone
  let marisol: CrewPhone
  let jobPath: string
  let batched: string
  let before: string[]

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    await setUpCompany(yard, curt)
    await shellKept(curt.page())
  })
  afterAll(() => yard?.close())

  test('a job opened on one phone is on the other as soon as that has joined by its code', async () => {
    const page = curt.page()
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Pellowick, 418 Tern Court')
    await button(page, 'Save').click()
    await sees(page, 'Order not recorded')
    jobPath = new URL(page.url()).pathname
    await button(page, 'Log the order').click()
    await fill(page, 'Yards ordered', '18.5')
    await button(page, 'Save').click()
    await sees(page, '18.5 yd³ to come').catch(() => sees(page, 'Ordered 18.5 yd³'))

    await page.goto(`${curt.line.url}/people`)
    await button(page, 'Add a person').click()
    await fill(page, 'Name, as the crew says it', 'Marisol')
    await page.getByText('crew', { exact: true }).last().click()
    await shoot(page, 'people-add')
    await button(page, 'Save').click()
    const card = page.locator('article', { hasText: 'Marisol' })
    await card.getByRole('button', { name: 'Join code' }).click()
    await page.getByText('Phone', { exact: true }).last().click()
    const qr = await page.locator('img.qr').getAttribute('data-text')
    await shoot(page, 'join-code')
    await page.getByRole('button', { name: 'Cancel' }).click()

    marisol = await yard.phone()
    const hers = marisol.page()
    await hers.goto(overLine(qr ?? undefined, marisol.line))
    await sees(hers, 'Brindlefork Flatwork')
    await sees(hers, 'Marisol')
    await shoot(hers, 'join')
    await button(hers, 'Join').click()
    await sees(hers, 'Pellowick, 418 Tern Court')
    await hers.goto(marisol.line.url + jobPath)
    await sees(hers, 'No load logged yet.')
  })

  test('without a network, each tap says that it is kept on this phone, and no more than that', async () => {
    const page = curt.page()
    await page.goto(curt.line.url + jobPath)
    await sees(page, 'All on the server')
    await curt.offline()
    batched = clockAgo(BATCHED_AGO)

    await button(page, 'Truck is here').click()
    await sees(page, 'Load 1')
    await sees(page, 'No network')
    await shoot(page, 'load-arrived')
    await logTicket(page, batched)
    await button(page, 'Discharge started').click()
    await button(page, 'No water').click()
    await sees(page, 'No water was added')
    await logSlump(page)
    await page.locator('input[data-shows="ticket"]').setInputFiles({
      name: 'ticket.jpg',
      mimeType: 'image/jpeg',
      buffer: await ticketPhoto(),
    })
    await sees(page, 'photo still on this phone')
    await logRemark(page, 'Driver says: rail crossing was closed')
    await logRemark(page, 'This one is taken back')
    await button(page, 'Discharge ended').click()
    await correctSlump(page)
    await takeBackRemark(page)
    await button(page, 'Truck left').click()
    await sees(page, 'Waiting here: entries 12, photos 1')
    await shoot(page, 'load-offline')
    const states = await page.locator('.card[data-load] .state').allInnerTexts()
    await button(page, 'Open').click()
    const opened = await page.locator('.card[data-load] .state').allInnerTexts()
    expect([...states, ...opened].filter((text) => !text.includes('on this phone'))).toEqual([])
    expect(opened.length).toBeGreaterThan(6)
    before = await figuresOn(page)
    expect(before[0]).toMatch(/^25 min|^26 min|^27 min/)
  })

  test('killed and opened again, still without a network, everything is there', async () => {
    await curt.killAndReopen(jobPath)
    const page = curt.page()
    await sees(page, 'Pellowick, 418 Tern Court')
    await sees(page, 'Waiting here: entries 12, photos 1')
    await button(page, 'Open').click()
    expect(await figuresOn(page)).toEqual(before)
    await sees(page, 'Driver says: rail crossing was closed')
    const image = page.locator('.photo img')
    await image.waitFor()
    await image.scrollIntoViewIfNeeded()
    await eventually(() => image.evaluate((img: HTMLImageElement) => img.naturalWidth)).toBe(640)
    const struck = await page.locator('.history-line[data-stands="false"]').allInnerTexts()
    expect(struck.map((text) => text.replace(/\s+/g, ' '))).toEqual([
      expect.stringContaining('4 1/4 in, cone'),
      expect.stringContaining('This one is taken back'),
    ])
    expect(struck[0]).toContain('Misread it')
    await shoot(page, 'job-after-kill')
  })

  test('on the network again, the server has each entry once, and the other phone shows them by itself', async () => {
    const page = curt.page()
    const hers = marisol.page()
    expect(await hers.locator('.card[data-load]').count()).toBe(0)
    await curt.online()
    await sees(page, 'All on the server', 45_000)
    await sees(hers, 'Load 1', 45_000)
    await button(hers, 'Open').click()
    await sees(hers, 'photo on the server')
    expect(await figuresOn(hers)).toEqual(before)
    await shoot(hers, 'second-phone')

    const entries = await pulledEntries(hers, jobPath)
    const made = entries.filter((entry) => entry.by.known !== 'server')
    // Job and order, then twelve without a network.
    expect(made).toHaveLength(14)
    expect(new Set(entries.map((entry) => entry.id)).size).toBe(entries.length)
    expect(entries.filter((entry) => entry.kind === 'photo.received')).toHaveLength(1)
  })

  test('the phone’s figures are the server’s', async () => {
    const page = curt.page()
    const model = await page.evaluate(async (path) => {
      const answer = await fetch(path.replace('/job/', '/api/jobs/'))
      return (await answer.json()).model
    }, jobPath)
    const { loads, ordered, ticketed, difference } = model as JobModel
    const [load] = loads
    const [clock, limit, water, slump] = before
    expect(load?.batchToEnd).toMatchObject({ is: 'given', minutes: [Number.parseInt(clock ?? '', 10)] })
    expect(load?.limit).toMatchObject({
      verdict: 'inside',
      checks: [{ limitMinutes: 90, verdict: 'inside' }],
    })
    expect(limit).toContain(`inside, at ${load?.limit.checks[0]?.minutes} min`)
    expect(load?.water.sum).toEqual({ is: 'none' })
    expect(water).toBe('No water was added')
    expect(load?.slump).toMatchObject([{ slump: { text: '4', unit: 'in' }, how: 'cone' }])
    expect(slump).toMatch(/^4 in, cone/)
    expect(load?.tickets).toMatchObject([{ number: { text: '71340' }, truck: { text: '218' } }])
    expect(load?.missing).toEqual([])
    expect([ordered.sum, ticketed.yards, difference]).toEqual([
      { is: 'given', yards: '18.5' },
      '8',
      { is: 'given', yards: '-10.5' },
    ])
    await sees(page, '10.5 yd³ to come')
  })

  test('a second tab shows what the first one logs, and both go on', async () => {
    const second = await curt.browser().newPage()
    await second.goto(curt.line.url + jobPath)
    await sees(second, 'Load 1')
    await curt.offline()
    await button(curt.page(), 'Truck is here').click()
    await sees(second, 'Load 2')
    await button(second, 'No water').click()
    await sees(curt.page(), 'No water was added')
    await curt.online()
    await sees(second, 'All on the server', 45_000)
    await sees(curt.page(), 'All on the server', 45_000)
    await second.close()
  })
})

const logTicket = async (page: Page, batched: string): Promise<void> => {
  await button(page, 'Log the ticket').click()
  await shoot(page, 'ticket-form')
  await button(page, 'Save').click()
  // Nothing is filled in for anyone: an untouched form is five open answers, not a ticket.
  await eventually(() => page.getByText('⚠ still open').count()).toBe(5)
  await fill(page, 'Ticket no.', '71340')
  await fill(page, 'Truck', '218')
  await fill(page, 'Yards of this load', '8')
  await fill(page, 'Batched at, like 0705', batched)
  const half = Number(batched.slice(0, 2)) >= 10 && Number(batched.slice(0, 2)) <= 12
  if (half) await page.getByText(Number(batched.slice(0, 2)) === 12 ? 'p.m.' : 'a.m.').click()
  await fill(page, 'Time limit on the ticket', '90')
  await page.locator('dialog').getByText('Discharge ended', { exact: true }).click()
  await shoot(page, 'ticket-form-filled')
  await button(page, 'Save').click()
  await sees(page, 'Ticket no. 71340')
  await sees(page, 'since batching')
}

const logSlump = async (page: Page): Promise<void> => {
  await button(page, 'Log a slump').click()
  await page.locator('dialog').getByRole('button', { name: '4 1/4', exact: true }).click()
  await shoot(page, 'slump-form')
  await button(page, 'Log it: cone').click()
  await sees(page, /4 1\/4 in, cone/)
}

const logRemark = async (page: Page, text: string): Promise<void> => {
  await page.locator('.card[data-load]').getByRole('button', { name: 'Add a remark' }).click()
  await page.locator('textarea').fill(text)
  await button(page, 'Save').click()
  await sees(page, text)
}

const correctSlump = async (page: Page): Promise<void> => {
  await page
    .getByRole('button', { name: /4 1\/4 in, cone/ })
    .first()
    .click()
  await shoot(page, 'entry')
  await button(page, 'Correct').click()
  await page.locator('dialog').getByRole('button', { name: '4', exact: true }).click()
  await page.locator('dialog').getByRole('button', { name: 'Misread it' }).click()
  await sees(page, /^4 in, cone/)
}

const takeBackRemark = async (page: Page): Promise<void> => {
  await page
    .getByRole('button', { name: /This one is taken back/ })
    .first()
    .click()
  await button(page, 'Take back').click()
  await shoot(page, 'take-back')
  await page.locator('dialog').getByRole('button', { name: 'Touched by mistake' }).click()
  await page.locator('dialog').waitFor({ state: 'detached' })
}

/** The card's figures in words: minutes, limit, water, slump. */
const figuresOn = async (page: Page): Promise<string[]> => {
  const card = page.locator('.card[data-load]').last()
  const texts = [
    card.locator('.clock .figure'),
    card.locator('.clock .limit'),
    card.locator('[aria-label="Water"] .sum'),
    card.locator('[aria-label="Slump"] .answer-value'),
  ]
  return Promise.all(texts.map(async (at) => ((await at.first().textContent()) ?? '').replace(/\s+/g, ' ')))
}

type Pulled = {
  readonly id: string
  readonly job: string
  readonly kind: string
  readonly by: { readonly known: string }
}

const pulledEntries = async (page: Page, jobPath: string): Promise<Pulled[]> => {
  const answer = await page.evaluate(async () => (await fetch('/api/pull?from=0&limit=500')).json())
  const all = (answer as { leaves: { entry: string }[] }).leaves.map(
    (leaf) => JSON.parse(leaf.entry) as Pulled,
  )
  return all.filter((entry) => jobPath.endsWith(entry.job))
}

const ticketPhoto = (): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 480, channels: 3, background: '#f4efe2' } })
    .composite([
      {
        input: Buffer.from(
          '<svg width="640" height="480"><text x="40" y="120" font-size="52">TICKET 71340</text><text x="40" y="220" font-size="44">TRUCK 218</text></svg>',
        ),
      },
    ])
    .jpeg()
    .toBuffer()
