import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { toLocalTime } from '../../api/domain/time.ts'
import { en } from '../../api/domain/words/en.ts'
import { DESK_SIZE, shoot } from '../kit/browser.ts'
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
import { leftInEnglish } from './left-in-english.ts'

describe('the screens in Spanish', () => {
  let yard: Yard
  let beto: CrewPhone
  let page: Page

  beforeAll(async () => {
    yard = await openYard()
    beto = await yard.phone({ languages: 'es-MX,es' })
    page = beto.page()
  })
  afterAll(() => yard?.close())

  const isSpanish = async (name: string) => {
    await shoot(page, `es-${name}`)
    expect(await leftInEnglish(page)).toEqual([])
  }

  test('a browser set to Spanish gets Spanish from the set-up link on', async () => {
    await page.goto(overLine(yard.server.setUpLink, beto.line))
    await sees(page, 'Crear la empresa')
    await isSpanish('set-up')
    await fill(page, 'Nombre de la empresa', 'Brindlefork')
    await fill(page, 'Tu nombre, como te dice la cuadrilla', 'Beto')
    await fill(page, 'Zona horaria', 'America/Denver')
    await button(page, 'Crear').click()
    await sees(page, 'Todavía no hay obras')
    await isSpanish('jobs')
  })

  test('no English is left on the pour screen, its forms and its history', async () => {
    await button(page, 'Abrir obra nueva').click()
    await isSpanish('job-form')
    await fill(page, 'Nombre de la obra, como le dice la cuadrilla', 'Patio Tern')
    await button(page, 'Guardar').click()
    await sees(page, 'Todavía no hay cargas')
    await isSpanish('job')
    await button(page, 'Llegó el camión').click()
    await sees(page, 'Carga 1')
    await isSpanish('load')
    await button(page, 'Apuntar la boleta').click()
    await button(page, 'Guardar').click()
    await isSpanish('ticket-form')
    for (const toggle of await page.locator('dialog button.toggle').all()) await toggle.click()
    await button(page, 'Guardar').click()
    await sees(page, 'La boleta no dice el límite')
    await button(page, 'Sin agua').click()
    await button(page, 'Más agua').click()
    await isSpanish('water-form')
    await fill(page, 'Galones que se echaron', '8')
    await button(page, 'Guardar').click()
    await sees(page, 'Hay “sin agua” y también galones')
    await button(page, 'Apuntar revenimiento').click()
    await isSpanish('slump-form')
    await page.locator('dialog').getByRole('button', { name: 'No se tomó', exact: true }).click()
    await page.getByRole('button', { name: /8 gal/ }).first().click()
    await isSpanish('entry')
    await button(page, 'Retirar').click()
    await isSpanish('take-back')
    await button(page, 'Toqué sin querer').click()
    await sees(page, 'No se echó agua')
    await button(page, 'Entregar un comprobante').click()
    await sees(page, 'No muestra que lo apuntado sea cierto')
    await isSpanish('slip')
    await button(page, 'Cancelar').click()
    await page.locator('.strip-line').click()
    await isSpanish('strip')
  })

  test('no English is left on the form of any kind of entry', async () => {
    await page.reload()
    await sees(page, 'Carga 1')
    const folded = page.locator('.fold-head[aria-expanded="false"]')
    await folded.first().waitFor()
    while ((await folded.count()) > 0) await folded.first().click()
    await isSpanish('job-open')
    const kinds = new Set(
      await page
        .locator('[data-log]')
        .evaluateAll((all) => all.map((one) => one.getAttribute('data-log') ?? '')),
    )
    expect(kinds.size).toBeGreaterThan(25)
    for (const kind of kinds) {
      await page.locator(`[data-log="${kind}"]`).first().click()
      const sheet = page.locator('dialog')
      await sheet.waitFor()
      const more = sheet.locator('.fold-head[aria-expanded="false"]')
      if ((await more.count()) > 0) await more.click()
      const save = sheet.getByRole('button', { name: 'Guardar', exact: true })
      await save.click()
      // Kept, the sheet closes; else it says what is open.
      await page.waitForFunction(
        () => !document.querySelector('dialog') || document.querySelector('dialog .field-wrong'),
      )
      // What has no needed answer is logged by that touch; of the rest the form says what is open.
      if ((await sheet.count()) > 0 && (await sheet.isVisible())) {
        expect(await leftInEnglish(page), kind).toEqual([])
        const small = await sheet.evaluate((dialog) =>
          [...dialog.querySelectorAll('button, .tag-option span, input[type=text], textarea')]
            .filter((e) => e.getBoundingClientRect().height > 0 && e.getBoundingClientRect().height < 55.5)
            .map((e) => e.outerHTML.slice(0, 120)),
        )
        expect(small, kind).toEqual([])
        const tooWide = await sheet.evaluate((dialog) =>
          [...dialog.querySelectorAll('*')]
            .filter((e) => e.getBoundingClientRect().right > innerWidth + 1)
            .map((e) => `${e.className} ${e.textContent?.slice(0, 40)}`),
        )
        expect(tooWide, kind).toEqual([])
        if (kind === 'air.measured' || kind === 'finish.done') await shoot(page, `es-form-${kind}`)
        await button(page, 'Cancelar').click()
        await sheet.waitFor({ state: 'detached' })
      }
      // The sheet's own state is taken out of the history in the browser's time.
      await page.waitForFunction(() => history.state === null)
    }
  })

  test('no English is left on people and office, and the switch turns it all to English and back', async () => {
    await page.goto(`${beto.line.url}/people`)
    await sees(page, 'Gente y teléfonos')
    await button(page, 'Dar de baja este aparato').click()
    await isSpanish('withdraw')
    await button(page, 'Cancelar').click()
    await button(page, 'Código para unirse').click()
    await page.getByText('Teléfono', { exact: true }).last().click()
    await sees(page, 'Sirve hasta')
    await isSpanish('join-code')
    await page.goto(`${beto.line.url}/office`)
    await sees(page, 'Hacer el registro (ZIP)')
    await isSpanish('office')
    await page.locator('.strip-line').click()
    await button(page, 'English').click()
    await sees(page, 'Make the record (ZIP)')
    expect((await leftInEnglish(page)).length).toBeGreaterThan(10)
    await page.reload()
    await sees(page, 'Make the record (ZIP)')
    await page.locator('.strip-line').click()
    await button(page, 'Español').click()
    await sees(page, 'Hacer el registro (ZIP)')
  })
})

describe('the office and the edges', () => {
  let yard: Yard
  let curt: CrewPhone

  beforeAll(async () => {
    yard = await openYard()
    curt = await yard.phone({ size: DESK_SIZE })
    await setUpCompany(yard, curt)
  })
  afterAll(() => yard?.close())

  test('a set-up link that was used says so, and the phone that used it gets its answer again', async () => {
    const other = await yard.phone()
    await other.page().goto(overLine(yard.server.setUpLink, other.line))
    await sees(other.page(), en.problemCodeUsed)
    await shoot(other.page(), 'code-used')
    await button(other.page(), en.codeWasMine).waitFor()
  })

  test('the office shows a load as it is logged, with what is not recorded in words', async () => {
    const page = curt.page()
    await button(page, 'Open a new job').click()
    await fill(page, 'Name of the job, as the crew calls it', 'Pellowick')
    await button(page, 'Save').click()
    await sees(page, 'No load logged yet.')
    const desk = await curt.browser().newPage()
    await desk.goto(`${curt.line.url}/office`)
    await sees(desk, 'Pellowick')
    await button(page, 'Truck is here').click()
    await button(page, 'Not sure').click()
    await button(page, 'Another time').click()
    // Before the truck came, at whatever hour this is run.
    const hour = Number(toLocalTime(Date.now(), 'America/Chicago').slice(11, 13))
    const [typed, shown] = hour >= 20 ? ['1945', '19:45'] : ['0015', '00:15']
    await fill(page, 'Clock time, like 0705', typed)
    // Asked once, and logged as it stands.
    await button(page, 'Save').click()
    await sees(page, en.oddStampOrder.replace('{time}', shown))
    await button(page, 'Save').click()
    const table = desk.locator('table')
    await eventually(() => table.locator('thead th').count()).toBe(2)
    await eventually(() => table.textContent()).toContain('Not sure')
    expect(await table.textContent()).toContain('not recorded')
    await shoot(desk, 'office')
    await shoot(page, 'desk-job', true)
  })

  test('what can’t be read says how to write it, a comma is read, and a long remark is refused whole', async () => {
    const page = curt.page()
    await button(page, 'Log the order').click()
    await button(page, 'Save').click()
    await sees(page, '⚠ still open')
    await fill(page, 'Yards ordered', 'eighteen')
    await sees(page, 'Can’t read this. Write it like 18.5')
    await shoot(page, 'unreadable')
    await fill(page, 'Yards ordered', '18,5')
    await sees(page, 'Read as 18.5 yd³')
    await button(page, 'Save').click()
    await sees(page, 'Ordered 18.5 yd³')
    await page.locator('.card[data-load]').getByRole('button', { name: 'Add a remark' }).click()
    await page.locator('textarea').fill('x'.repeat(2013))
    await button(page, 'Save').click()
    await sees(page, 'Characters too many: 13.')
    expect((await page.locator('textarea').inputValue()).length).toBe(2013)
    await shoot(page, 'remark-too-long')
    await button(page, 'Cancel').click()
    await page.locator('dialog').waitFor({ state: 'detached' })
  })

  test('the phone’s back closes the sheet and not the job, and a sheet closed by its button leaves nothing', async () => {
    const page = curt.page()
    const sheet = page.locator('dialog')
    const here = page.url()
    const atJob = () =>
      eventually(() => page.evaluate(() => [location.href, history.state])).toEqual([here, null])
    const openRemark = () =>
      page.locator('.card[data-load]').getByRole('button', { name: 'Add a remark' }).click()
    await atJob()
    const length = await page.evaluate(() => history.length)
    for (const end of ['back', 'button', 'back'] as const) {
      await openRemark()
      await sheet.waitFor()
      if (end === 'back') await page.evaluate(() => history.back())
      else await button(page, 'Cancel').click()
      await sheet.waitFor({ state: 'detached' })
      await atJob()
    }
    // From one sheet to the next and back: the job still.
    await page.locator('.history-line').first().click()
    await button(page, 'Correct').click()
    await page.locator('dialog form').waitFor()
    await page.evaluate(() => history.back())
    await sheet.waitFor({ state: 'detached' })
    await atJob()
    // Closed and opened at once, before the browser has gone back.
    await openRemark()
    await page.evaluate(() => {
      document.querySelector<HTMLElement>('dialog .sheet-head button')?.click()
      setTimeout(() => document.querySelector<HTMLElement>('.history-line')?.click(), 1)
    })
    await button(page, 'Correct').waitFor()
    await page.waitForTimeout(300)
    expect(await sheet.count()).toBe(1)
    await button(page, 'Cancel').click()
    await atJob()
    // What a back leaves ahead, the next sheet takes.
    expect(await page.evaluate(() => history.length)).toBeLessThanOrEqual(length + 1)
    await page.evaluate(() => history.back())
    await sees(page, 'Open a new job')
    expect(new URL(page.url()).pathname).toBe('/')
    await page.evaluate(() => history.forward())
    await atJob()
  })

  test('the record comes as a ZIP', async () => {
    const desk = await curt.browser().newPage()
    await desk.goto(`${curt.line.url}/office`)
    const [download] = await Promise.all([
      desk.waitForEvent('download', { timeout: 60_000 }),
      button(desk, 'Make the record (ZIP)').click(),
    ])
    expect(download.suggestedFilename()).toMatch(/\.zip$/)
  })

  test('a slip is handed out as a QR and eight words', async () => {
    const desk = await curt.browser().newPage()
    await desk.goto(`${curt.line.url}/office`)
    await button(desk, 'Hand out a slip').click()
    await desk.locator('img.qr').waitFor()
    expect(await desk.locator('img.qr').getAttribute('data-text')).toMatch(
      /^screedbook-slip\/v1\nscreedbook\//,
    )
    expect(await desk.locator('.slip-words li').count()).toBe(8)
    await shoot(desk, 'slip')
  })

  test('withdrawing a device takes two touches, and a withdrawn phone’s entries are set aside', async () => {
    const page = curt.page()
    await page.bringToFront()
    await page.goto(`${curt.line.url}/people`)
    await button(page, 'Join code').click()
    await page.getByText('Phone', { exact: true }).last().click()
    const qr = await page.locator('img.qr').getAttribute('data-text')
    await button(page, 'Cancel').click()
    const teddy = await yard.phone()
    await teddy.page().goto(overLine(qr ?? undefined, teddy.line))
    await button(teddy.page(), 'Join').click()
    await sees(teddy.page(), 'Pellowick')
    await eventually(() => page.getByRole('button', { name: 'Withdraw this device' }).count()).toBe(2)
    await page.getByRole('button', { name: 'Withdraw this device' }).last().click()
    await button(page, 'I want to withdraw it').click()
    await button(page, 'Yes, withdraw it').click()
    await sees(page, 'withdrawn')
    await sees(page, 'All on the server')
    await teddy.page().getByText('Pellowick').click()
    await button(teddy.page(), 'Truck is here').click()
    await teddy.page().locator('.strip-line').click()
    await sees(teddy.page(), en.setAsideCount.replace('{count}', '1'))
    await shoot(teddy.page(), 'set-aside')
  })

  test('at 360 px and twice the text size nothing runs off the side, and every target is 56 px high', async () => {
    const page = curt.page()
    await page.goto(curt.line.url)
    await page.getByText('Pellowick').click()
    await sees(page, 'Load 1')
    await page.setViewportSize({ width: 360, height: 740 })
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('button, a.button, label.button, .tag-option span, input[type=text]')]
        .filter((e) => e.getClientRects().length > 0 && e.getBoundingClientRect().height < 55.5)
        .map((e) => e.outerHTML.slice(0, 120)),
    )
    expect(small).toEqual([])
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%'
    })
    const tooWide = await page.evaluate(() =>
      [...document.querySelectorAll('main *, .strip *')]
        .filter((e) => e.getBoundingClientRect().right > 361 && !e.closest('.table-box'))
        .map((e) => `${e.className} ${e.textContent?.slice(0, 40)}`),
    )
    expect(tooWide).toEqual([])
    await shoot(page, 'large-text', true)
    await page.emulateMedia({ colorScheme: 'dark' })
    await page.evaluate(() => {
      document.documentElement.style.fontSize = ''
    })
    await shoot(page, 'dark')
  })
})
