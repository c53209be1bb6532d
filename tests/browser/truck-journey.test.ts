import type { Locator, Page } from 'playwright-core'
import sharp from 'sharp'
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
  sees,
  setUpCompany,
  shellKept,
  type Yard,
} from './crew.ts'

const ZONE = 'America/Chicago'
/** A tap and a decision, in seconds, and the longest scrap of attention. Source: the bars of the app; JOB A2. */
const TAP_S = 1
const DECISION_S = 1.35
const SCRAP_S = 20

/** Counts touches. Each is reckoned as a decision too, which is more than most of them are. */
const fingers = () => {
  const scraps: { readonly name: string; readonly taps: number }[] = []
  let taps = 0
  return {
    tap: async (on: Locator) => {
      taps++
      await on.click()
    },
    /** Camera and shutter. */
    photo: async (on: Locator, buffer: Buffer) => {
      taps += 2
      await on.setInputFiles({ name: 'ticket.jpg', mimeType: 'image/jpeg', buffer })
    },
    scrap: (name: string): number => {
      scraps.push({ name, taps })
      const done = taps
      taps = 0
      return done
    },
    scraps,
    all: () => scraps.reduce((sum, scrap) => sum + scrap.taps, 0),
  }
}

/** One truck, by tapping alone, without a network: how many touches each thing costs. */
describe('load 1 at the truck, offline, by tapping only', () => {
  let yard: Yard
  let curt: CrewPhone
  let page: Page
  const truck = fingers()

  const dock = () => page.locator('.dock')
  const sheet = () => page.locator('dialog')
  const inDock = (name: string) => dock().getByRole('button', { name, exact: true })
  const inSheet = (name: string) => sheet().getByRole('button', { name, exact: true })
  const kinds = (kind: string) => page.locator(`.history-line[data-kind="${kind}"]`)
  const closed = () => sheet().waitFor({ state: 'detached' })
  const one = (kind: string, count = 1) => eventually(() => kinds(kind).count()).toBe(count)

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone()
    page = curt.page()
    page.setDefaultTimeout(10_000)
    await setUpCompany(yard, curt)
    await shellKept(page)
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Tern Court')
    await button(page, 'Save').click()
    await sees(page, 'No load logged yet.')
    // The order, at the office table, days before.
    await page.locator('.fold-head', { hasText: en.theOrder }).click()
    await page.locator('[data-log="placement.planned"]').click()
    for (const [nth, text] of ['First day', 'Drive', '40', '20', '5'].entries())
      await sheet().locator('input[type=text]').nth(nth).fill(text)
    await inSheet('Save').click()
    await closed()
    await sees(page, 'All on the server')
    await curt.offline()
    await page.reload()
    await sees(page, 'No load logged yet.')
  })
  afterAll(() => yard?.close())

  test('[taps] before a truck is here nothing is asked: one large tap, and no question', async () => {
    expect(await dock().getByRole('button').allTextContents()).toEqual(['Truck is here'])
    const box = await inDock('Truck is here').boundingBox()
    expect(box!.height).toBeGreaterThanOrEqual(88)
    expect(box!.y + box!.height).toBeGreaterThan(700)
    expect(await page.locator('.dock-water').count()).toBe(0)
  })

  test('[taps] truck here is one, and can be undone for ten seconds by a further entry', async () => {
    await inDock('Truck is here').click()
    await one('load.arrived')
    await dock().getByRole('button', { name: 'Undo' }).click()
    await one('entry.withdrawn')
    await eventually(() => page.locator('.history-line[data-stands="false"]').count()).toBe(1)
    expect(await page.locator('.history').textContent()).toContain(en.whyUndone)

    await truck.tap(inDock('Truck is here'))
    await one('load.arrived', 2)
    await sees(page, en.waterBefore)
    await dock().getByRole('button', { name: 'Undo' }).waitFor()
    await shoot(page, 'truck-here')
    await truck.photo(dock().locator('input[data-at-truck="ticket"]'), await ticketPhoto())
    await one('photo.taken')
    await truck.tap(inDock('No water'))
    await sees(page, en.waterSumNone)
    expect(await page.locator('.dock-water').count()).toBe(0)
    expect(truck.scrap('arrival')).toBe(4)
  })

  test('[taps] discharge started is one, and a knuckle that bounces does not end it', async () => {
    await truck.tap(inDock('Discharge started'))
    await inDock('Discharge ended')
      .click({ force: true, timeout: 300 })
      .catch(() => {})
    await one('discharge.started')
    await page.waitForTimeout(300)
    expect(await kinds('discharge.ended').count()).toBe(0)
    expect(truck.scrap('start')).toBe(1)
    await shoot(page, 'discharging')
  })

  test('[taps] slump is three, air and degrees four, and no pad has a value before it is touched', async () => {
    await truck.tap(inDock('Slump'))
    expect(await sheet().locator('[aria-pressed="true"]').count()).toBe(0)
    await shoot(page, 'slump-ruler')
    await truck.tap(inSheet('4 1/4'))
    await truck.tap(inSheet('Log it: cone'))
    await closed()
    await one('slump.measured')
    expect(truck.scrap('slump')).toBeLessThanOrEqual(3)

    await truck.tap(inDock('Air %'))
    expect(await sheet().locator('[aria-pressed="true"]').count()).toBe(0)
    await truck.tap(sheet().getByRole('group', { name: en.wholePercent }).getByRole('button', { name: '6' }))
    // Half a number is no number.
    await inSheet('Log it').click()
    await sees(page, 'still open')
    await truck.tap(sheet().getByRole('group', { name: en.tenths }).getByRole('button', { name: '4' }))
    await truck.tap(inSheet('Log it'))
    await closed()
    await sees(page, /6\.4 %/)
    expect(truck.scrap('air')).toBe(4)

    await truck.tap(inDock('Concrete °F'))
    expect(await sheet().locator('[aria-pressed="true"]').count()).toBe(0)
    await truck.tap(sheet().getByRole('group', { name: en.tens }).getByRole('button', { name: '60' }))
    await truck.tap(sheet().getByRole('group', { name: en.ones }).getByRole('button', { name: '3' }))
    await truck.tap(inSheet('Log it'))
    await closed()
    await sees(page, /63 °F/)
    expect(truck.scrap('degrees')).toBe(4)
  })

  test('[taps] paused, it asks for water again; ended is one', async () => {
    await inDock('Paused').click()
    await sees(page, en.waterPaused)
    await inDock('Goes on').click()
    await one('discharge.resumed')
    await truck.tap(inDock('Discharge ended'))
    await one('discharge.ended')
    // Nobody spoke of water since it began: that none went in is a second fact.
    await sees(page, en.waterLater)
    await truck.tap(inDock('No water'))
    await one('water.added', 2)
    expect(truck.scrap('end')).toBe(2)
    expect(await page.getByText(en.oddWaterBoth).count()).toBe(0)
  })

  test('[taps] where it went, the read-out before the signature, and gone', async () => {
    await truck.tap(inDock(en.shortWhere))
    await truck.tap(sheet().getByRole('button', { name: 'Drive', exact: true }))
    await truck.tap(sheet().getByText('by eye', { exact: true }))
    await truck.tap(inSheet('Save'))
    await closed()
    await one('load.placed')
    expect(truck.scrap('place')).toBe(4)

    await inDock(en.readBefore).click()
    await sees(page, en.nothingAgainst)
    const read = (await sheet().locator('.read-out').textContent()) ?? ''
    for (const said of ['No water was added', '4 1/4 in, cone', '6.4 %', en.clockNoTicket])
      expect(read).toContain(said)
    await shoot(page, 'read-out')
    await inSheet(en.signedNoException).click()
    await closed()
    await one('ticket.signed')
    await truck.tap(inDock('Truck left'))
    await one('load.left')
    expect(truck.scrap('gone')).toBe(1)
    await sees(page, 'Truck is here')
  })

  test('[taps] the whole load is 25 or fewer, and no scrap of attention is longer than 20 seconds', () => {
    console.log(truck.scraps.map(({ name, taps }) => `${name} ${taps}`).join(', '), '· in all', truck.all())
    expect(truck.all()).toBeLessThanOrEqual(25)
    for (const { name, taps } of truck.scraps)
      expect(taps * (TAP_S + DECISION_S), name).toBeLessThanOrEqual(SCRAP_S)
  })

  test('[taps] in the quiet hour the blanks stand quickest first, and the ticket’s digits are 25 or fewer', async () => {
    const quiet = fingers()
    await quiet.tap(dock().locator('.dock-blanks'))
    const seconds = await sheet().locator('.blank span').allTextContents()
    const sorted = seconds.map((text) => Number(/\d+/.exec(text)![0]))
    expect(sorted).toEqual([...sorted].sort((a, b) => a - b))
    await shoot(page, 'blanks')
    await quiet.tap(sheet().locator('[data-blank="ticket"]'))
    const key = (name: string) => page.locator('.keypad').getByRole('button', { name, exact: true })
    const digits = async (text: string) => {
      for (const digit of text) await quiet.tap(key(digit))
    }
    // The photograph stands beside what is typed from it, and the keys are there without a touch.
    await page.locator('.ticket-photo img').waitFor()
    const batched = toLocalTime(Date.now() - 40 * 60_000, ZONE).slice(11, 16)
    const fields = ['71340', '218', '8', batched.replace(':', ''), '90']
    for (const [i, text] of fields.entries()) {
      await digits(text)
      if (i < fields.length - 1) await quiet.tap(key('Next'))
    }
    await shoot(page, 'ticket-keys')
    const hour = Number(batched.slice(0, 2))
    if (hour >= 10 && hour <= 12) await quiet.tap(sheet().getByText(hour === 12 ? 'p.m.' : 'a.m.'))
    await quiet.tap(sheet().getByText('Discharge ended', { exact: true }))
    await quiet.tap(inSheet('Save'))
    await sees(page, en.blanks)
    expect(quiet.scrap('ticket')).toBeLessThanOrEqual(25)
    await sheet().locator('.sheet-head button').click()
    await closed()
    await one('ticket.recorded')
    const card = page.locator('.card[data-load]').first()
    await card.getByRole('button', { name: 'Open' }).click()
    await sees(page, 'Ticket no. 71340')
  })

  test('[taps] a correction is four or fewer, and the first value stays to be seen', async () => {
    const mend = fingers()
    await mend.tap(kinds('slump.measured').first())
    await mend.tap(inSheet('Correct'))
    await mend.tap(inSheet('4'))
    await mend.tap(inSheet('Misread it'))
    await closed()
    await sees(page, /^4 in, cone/)
    await eventually(() =>
      page.locator('.history-line[data-kind="slump.measured"][data-stands="false"]').count(),
    ).toBe(1)
    expect(mend.scrap('correction')).toBeLessThanOrEqual(4)
  })

  test('[taps] gallons after “none” correct it: both stand in the history, and nothing disagrees', async () => {
    await inDock('Truck is here').click()
    await sees(page, en.waterBefore)
    await inDock('No water').click()
    await one('water.added', 3)
    await inDock('Water').click()
    await sheet().getByRole('group', { name: en.tens }).getByRole('button', { name: '10' }).click()
    await sheet().getByRole('group', { name: en.ones }).getByRole('button', { name: '2' }).click()
    await inSheet('Log it').click()
    await closed()
    await sees(page, '12 gal in all')
    expect(await page.getByText(en.oddWaterBoth).count()).toBe(0)
    expect(await page.locator('.history').textContent()).toContain(en.whyWaterAfterNone)
  })

  test('[keyboard] a stamp, a reading and leaving a sheet need no touch', async () => {
    await eventually(() => inDock('Discharge started').isEnabled()).toBe(true)
    await inDock('Discharge started').focus()
    await page.keyboard.press('Enter')
    await one('discharge.started', 2)
    await inDock('Slump').focus()
    await page.keyboard.press('Enter')
    await sheet().waitFor()
    await page.keyboard.press('Escape')
    await closed()
    await inDock('Slump').focus()
    await page.keyboard.press('Enter')
    await inSheet('5 1/2').focus()
    await page.keyboard.press('Space')
    await inSheet('Log it: by eye').focus()
    await page.keyboard.press('Enter')
    await closed()
    await sees(page, /5 1\/2 in, by eye/)
  })

  test('[taps] on the network again every entry of it is taken, and none is refused', async () => {
    await curt.online()
    await sees(page, 'All on the server', 60_000)
    expect(await page.getByText('not taken by the server').count()).toBe(0)
  })
})

const ticketPhoto = (): Promise<Buffer> =>
  sharp({ create: { width: 640, height: 900, channels: 3, background: '#f4efe2' } })
    .composite([
      {
        input: Buffer.from(
          '<svg width="640" height="900"><text x="40" y="120" font-size="52">TICKET 71340</text></svg>',
        ),
      },
    ])
    .jpeg()
    .toBuffer()
