import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { button, type CrewPhone, fill, openYard, overLine, sees, setUpCompany, type Yard } from './crew.ts'

let yard: Yard
let curt: CrewPhone
let second: CrewPhone

beforeAll(async () => {
  yard = await openYard()
  curt = await yard.phone()
  second = await yard.phone()
  await setUpCompany(yard, curt)
  const page = curt.page()
  await button(page, 'Open a new job').click()
  await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
  await button(page, 'Save').click()
  await sees(page, 'No load logged yet.')
  const jobPath = new URL(page.url()).pathname
  await page.goto(`${curt.line.url}/people`)
  await button(page, 'Join code').click()
  await page.getByText('Phone', { exact: true }).last().click()
  const qr = await page.locator('img.qr').getAttribute('data-text')
  await page.goto(curt.line.url + jobPath)
  await second.page().goto(overLine(qr ?? undefined, second.line))
  await button(second.page(), 'Join').click()
  await second.page().getByText('Pellowick').click()
  await sees(second.page(), 'No load logged yet.')
})
afterAll(() => yard.close())

test('[live] what one phone logs, the other shows by itself: by the stream, long before it would poll', async () => {
  const took: number[] = []
  for (let i = 0; i < 3; i++) {
    const from = i % 2 === 0 ? curt.page() : second.page()
    const to = i % 2 === 0 ? second.page() : curt.page()
    const shown = to
      .getByText(`Load ${i + 1}`)
      .first()
      .waitFor({ timeout: 20_000 })
    const start = performance.now()
    await button(from, 'Truck is here').click()
    await shown
    took.push(Math.round(performance.now() - start))
  }
  console.log(`shown on the other phone after ${took.join(', ')} ms`)
  // Polling comes every 15 s, or 4 s where something waits.
  expect(took.sort((a, b) => a - b)[1]).toBeLessThan(3_000)
})

/** Ways in which something between phone and server can spoil the stream. */
const BLOCKED: readonly { readonly how: string; readonly block: (page: Page) => Promise<unknown> }[] = [
  {
    how: 'cut by a proxy',
    block: (page) => page.route('**/api/live', (route) => route.abort('connectionreset')),
  },
  {
    how: 'answered by a proxy with a page of its own',
    block: (page) =>
      page.route('**/api/live', (route) => route.fulfill({ status: 200, body: '<html>log in</html>' })),
  },
  {
    how: 'opened and held back by a proxy that buffers',
    block: (page) =>
      page.addInitScript(() => {
        const silent = class extends EventTarget {
          readyState = 1
          close() {
            this.readyState = 2
          }
        }
        Object.assign(window, { EventSource: Object.assign(silent, { CONNECTING: 0, OPEN: 1, CLOSED: 2 }) })
      }),
  },
]

for (const { how, block } of BLOCKED)
  test(`[live] where the stream is ${how}, the other phone polls, and shows it within twenty seconds`, async () => {
    const page = second.page()
    await block(page)
    await page.reload()
    await sees(page, /^Load \d+/)
    const loads = await page.locator('.card[data-load]').count()
    // Past the syncs that opening brings.
    await page.waitForTimeout(3_000)
    const start = performance.now()
    await button(curt.page(), 'Truck is here').click()
    await page
      .getByText(`Load ${loads + 1}`)
      .first()
      .waitFor({ timeout: 40_000 })
    const took = Math.round(performance.now() - start)
    console.log(`${how}: shown after ${took} ms`)
    expect(took).toBeLessThan(20_000)
    await page.unroute('**/api/live')
  })
