import { readFileSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import type { CDPSession } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { writeVerifierKey } from '../../api/domain/log/note.ts'
import { slipWords, writeSlip } from '../../api/domain/log/slip.ts'
import { sha256 } from '../../api/server/senses.ts'
import { buildPage } from '../../api/verify/page/build.ts'
import { type GoodLog, makeGoodLog } from '../damage/good-log.ts'
import { recordBytes } from '../damage/make-good.ts'
import { logKeyOf, unpack } from '../damage/record-kit.ts'
import { STAMP_ROWS } from '../damage/rows/stamps.ts'
import { ROWS } from '../damage/rows.ts'
import { emptyLog, treeHead } from '../damage/scripted-log.ts'
import { DESK_SIZE, newProfile, openBrowser, PHONE_SIZE, type RunningBrowser, shoot } from '../kit/browser.ts'
import { createChance } from '../kit/chance.ts'
import { type Authority, createAuthority } from '../stamps/authority.ts'
import { stampLog } from '../stamps/stamp-log.ts'
import { builtPage, giveFile, openCheckPage, type PageSays, verdictOf } from './check-page.ts'

let good: GoodLog
let record: Uint8Array
let browser: RunningBrowser
let profile: Awaited<ReturnType<typeof newProfile>>
let stamped: {
  readonly authority: Authority
  readonly good: GoodLog
  readonly size: number
  readonly record: Uint8Array
}
let opened: { readonly asked: string[]; readonly errors: string[]; readonly cdp: CDPSession }
const fileOf = (name: string): string => path.join(profile.folder, name)

beforeAll(async () => {
  await builtPage()
  good = await makeGoodLog()
  record = await recordBytes(good, { slipSizes: [20] })
  const authority = createAuthority()
  const stampedLog = await makeGoodLog({ words: 'stamped' })
  const size = await stampLog(stampedLog, authority)
  stamped = { authority, good: stampedLog, size, record: await recordBytes(stampedLog) }
  profile = await newProfile()
  browser = await openBrowser(profile.folder)
  opened = await openCheckPage(browser.context, browser.page)
}, 120_000)
afterAll(async () => {
  await browser?.close()
  await profile?.remove()
  stamped?.authority.remove()
})

const check = async (bytes: Uint8Array, name = 'record.zip'): Promise<PageSays> => {
  writeFileSync(fileOf(name), bytes)
  await browser.page.evaluate(() => document.getElementById('result')?.replaceChildren())
  await giveFile(opened.cdp, fileOf(name))
  return verdictOf(browser.page)
}
const say = async (box: 'slip' | 'key' | 'certificate', text: string): Promise<void> => {
  await browser.page.evaluate(() => {
    for (const more of document.querySelectorAll('details')) more.open = true
  })
  await browser.page.fill(`#${box}`, text)
}

/** Source: WCAG 2.2 (2023), definitions of relative luminance and contrast ratio. */
const contrast = (a: string, b: string): number => {
  const light = (hex: string): number => {
    const [r, g, blue] = [1, 3, 5].map((at) => {
      const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
    }) as [number, number, number]
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue
  }
  const [more, less] = [light(a), light(b)].sort((x, y) => y - x) as [number, number]
  return (more + 0.05) / (less + 0.05)
}

describe('verify.html, opened from a disk with the network cut', () => {
  test('[verify.html] is one file of at most 1.5 MB, and the same sources give the same bytes', async () => {
    expect(statSync(await builtPage()).size).toBeLessThanOrEqual(1_500_000)
    const before = readFileSync(await builtPage())
    expect(Buffer.compare(before, await buildPage())).toBe(0)
    expect((await unpack(record)).get('verify.html')).toEqual(new Uint8Array(before))
  })

  test('[verify.html] names no address in its markup, and its policy lets the browser fetch nothing', async () => {
    const page = readFileSync(await builtPage(), 'utf8')
    const markup = page.slice(0, page.indexOf('id="pdf-reader"'))
    expect(markup.match(/\ssrc=|href=|<link\b|@import|url\(|https?:/gi)).toBe(null)
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(page)?.[1]
    expect(policy?.split('; ').map((part) => part.replace(/sha256-[^']+/, 'hash'))).toEqual([
      "default-src 'none'",
      "script-src 'hash' blob:",
      "style-src 'hash'",
      "base-uri 'none'",
      "form-action 'none'",
    ])
  })

  test('[L41] a good record holds, and every question but the slip’s was asked, entry by entry', async () => {
    const says = await check(record)
    expect(says).toMatchObject({ holds: true, findings: [] })
    expect(Object.entries(says.groups).filter(([, is]) => is !== 'holds')).toEqual([
      ['slip', 'not-checked'],
      ['stamps', 'nothing-there'],
    ])
    expect(says.entries).toEqual(Array.from({ length: 23 }, () => 'holds'))
    await shoot(browser.page, 'check-holds-phone', true)
  })

  test('[L43] a withheld entry shows in its place', async () => {
    const gap = await makeGoodLog({ words: 'withheld' })
    const at = gap.log.leaves.findIndex((leaf) => leaf.entryHash === gap.named.get('water 12'))
    gap.log.leaves[at] = { ...gap.log.leaves[at]!, bytes: undefined }
    const says = await check(await recordBytes(gap))
    expect([says.holds, says.entries.indexOf('withheld')]).toEqual([true, 15])
  })

  test('[L36] it takes a slip as text and as eight words, and the log’s key from elsewhere', async () => {
    await check(record)
    const last = good.log.leaves.find((l) => l.job === good.job && l.count === 12)!.leafHash
    const slip = { origin: good.log.origin, head: treeHead(good.log, 20), count: 12, last }
    const words = slipWords(slip, sha256)
    const again = async (): Promise<PageSays> => {
      await browser.page.evaluate(() => document.getElementById('result')?.replaceChildren())
      await browser.page.click('#again')
      return verdictOf(browser.page)
    }
    // As mail would break it.
    await say('slip', `  ${writeSlip(slip).replaceAll('\n', '\r\n')} `)
    expect(await again()).toMatchObject({ holds: true, groups: { slip: 'holds' } })
    await say('slip', words.join(', ').toUpperCase())
    await say('key', writeVerifierKey(logKeyOf(good.log), sha256))
    expect(await again()).toMatchObject({ holds: true, groups: { slip: 'holds' } })
    await say('slip', [...words.slice(0, 7), words[7] === 'zoo' ? 'zone' : 'zoo'].join(' '))
    expect((await again()).findings).toEqual([{ code: 'slip-unknown', file: 'slip' }])
    await say('slip', 'mortar trowel')
    await expect(again()).rejects.toThrow('“mortar” is not a word that slips have')
    await say('slip', words.slice(1).join(' '))
    await expect(again()).rejects.toThrow('these are 7')
    await say('slip', '')
    await say('key', 'nonsense')
    await expect(again()).rejects.toThrow('no key of a log')
    await say('key', writeVerifierKey(logKeyOf(emptyLog(good.log.company, 'another')), sha256))
    expect((await again()).findings).toContainEqual({ code: 'key-differs', file: 'log.vkey' })
    await say('key', '')
  })

  test('[L57] it reads time stamps: by whom, when, and how far they reach, also to a root had from elsewhere', async () => {
    expect(await check(stamped.record)).toMatchObject({ holds: true, groups: { stamps: 'holds' } })
    const shown = () => browser.page.textContent('.stamps')
    expect(await shown()).toContain('entries 1 to 23 were in the log by then')
    expect(await shown()).toContain('as far as the stamp itself brings them')
    await say('certificate', stamped.authority.root)
    expect(await check(stamped.record)).toMatchObject({ holds: true, findings: [] })
    expect(await shown()).toContain('Its certificates lead to the one that you gave')
    expect(await browser.page.textContent('#verdict')).toContain('made anew since then would not fit it')
    await shoot(browser.page, 'check-stamps-phone', true)
    await say('certificate', 'no certificate')
    await expect(check(stamped.record)).rejects.toThrow('holds no certificate')
    await say('certificate', '')
  })

  test('[verify.html] a file that is no record at all is one plain sentence, in Spanish too', async () => {
    expect((await check(toUtf8('this is no record\n'), 'letter.txt')).findings).toEqual([
      { code: 'zip-malformed', file: '-' },
    ])
    await browser.page.click('#language')
    expect(await browser.page.textContent('#verdict')).toContain('Este registro no cuadra')
    expect(await browser.page.evaluate(() => document.documentElement.lang)).toBe('es')
    await browser.page.click('#language')
  })

  test('[verify.html] a record that is dropped on the page is checked; two at once are asked for one by one', async () => {
    const drop = (names: string[]) =>
      browser.page.evaluate(
        ([zip, ...files]) => {
          document.getElementById('result')?.replaceChildren()
          const bytes = Uint8Array.from(atob(zip!), (c) => c.charCodeAt(0))
          const carried = new DataTransfer()
          for (const name of files) carried.items.add(new File([bytes], name))
          document.body.dispatchEvent(
            new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: carried }),
          )
        },
        [Buffer.from(record).toString('base64'), ...names],
      )
    await drop(['dropped.zip'])
    expect(await verdictOf(browser.page)).toMatchObject({ holds: true, findings: [] })
    expect(await browser.page.textContent('#verdict')).toContain('dropped.zip')
    await drop(['one.zip', 'two.zip'])
    await expect(verdictOf(browser.page)).rejects.toThrow('Drop one file')
  })

  test('[L37] a photo too large for one piece is hashed part by part, and a byte of it is not missed', async () => {
    const { bytes } = createChance(3)
    const some = bytes(1_048_576)
    const photo = new Uint8Array(36 * some.length)
    for (let at = 0; at < photo.length; at += some.length) photo.set(some, at)
    const hash = toHex(sha256(photo))
    const large = await makeGoodLog({ words: 'large', morePhotos: [{ hash, bytes: photo.length }] })
    const whole = await recordBytes({ ...large, photos: new Map([...large.photos, [hash, photo]]) })
    expect(await check(whole)).toMatchObject({ holds: true, findings: [], groups: { photos: 'holds' } })
    whole[Buffer.from(whole).indexOf(Buffer.from(some)) + 20 * some.length]! ^= 1
    expect((await check(whole)).findings).toContainEqual({
      code: 'photo-differs',
      file: `photos/${hash}.jpg`,
    })
  })

  test('[verify.html] text has a contrast of 7:1 or more in both themes (WCAG 2.2, 1.4.6)', () => {
    const style = readFileSync(new URL('../../api/verify/page/style.css', import.meta.url), 'utf8')
    const [, ...themes] = style.split(':root {')
    expect(themes).toHaveLength(2)
    for (const theme of themes) {
      const colour = (name: string): string => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(theme)![1]!
      for (const [ink, ground] of [
        ['ink', 'slab'],
        ['ink', 'tag'],
        ['ink', 'board'],
        ['soft', 'slab'],
        ['soft', 'tag'],
        ['press-ink', 'press'],
        ['alarm-ink', 'alarm'],
      ] as const)
        expect(contrast(colour(ink), colour(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(7)
    }
  })

  test('[verify.html] at 360 px, and with text at 200 %, nothing runs off the side; targets are 56 px high', async () => {
    await check(await ROWS[8]!.make({ good, files: await unpack(record) }))
    for (const size of ['100%', '200%']) {
      await browser.page.setViewportSize({ width: 360, height: 780 })
      const [wide, low] = await browser.page.evaluate((text) => {
        document.documentElement.style.fontSize = text
        return [
          document.documentElement.scrollWidth,
          Math.min(
            ...[...document.querySelectorAll('button:not([hidden]), .press:not([hidden]), summary')].map(
              (one) => one.getBoundingClientRect().height,
            ),
          ),
        ] as const
      }, size)
      expect([size, wide]).toEqual([size, 360])
      expect(low).toBeGreaterThanOrEqual(56)
    }
    await browser.page.evaluate(() => document.documentElement.style.removeProperty('font-size'))
    await browser.page.setViewportSize(PHONE_SIZE)
  })

  test('[verify.html] works by keyboard alone: the verdict is where the keyboard is', async () => {
    await check(record)
    expect(await browser.page.evaluate(() => document.activeElement?.id)).toBe('verdict')
  })
})

/** The rows that this checker must find; each is done in the same page, one after the other. */
describe('each damage is found by verify.html too', () => {
  const rows = ROWS.filter(({ by }) => by.includes('verify.html')).map((row) => ({
    ...row,
    title: `[${row.rule}] ${row.damage}`,
  }))
  test.each(rows)('$title', async ({ make, expect: wanted }) => {
    const says = await check(await make({ good, files: await unpack(record) }))
    expect(says.holds).toBe(false)
    for (const [code, file] of wanted)
      expect(
        says.findings.some(
          (f) => f.code === code && (typeof file === 'string' ? f.file === file : file.test(f.file)),
        ),
        `${code} ${file} among:\n${says.findings.map((f) => `${f.code} ${f.file}`).join('\n')}`,
      ).toBe(true)
  })

  const stampRows = STAMP_ROWS.filter(({ by }) => by.includes('verify.html'))
  test.each(stampRows.map((row) => ({ ...row, title: `[${row.rule}] ${row.damage}` })))(
    '$title',
    async ({ make, trusts, expect: wanted }) => {
      const { authority, good: stampedLog, size, record: whole } = stamped
      await say('certificate', trusts ? authority[trusts] : '')
      const bytes = await make({ authority, good: stampedLog, size, files: await unpack(whole) })
      const says = await check(bytes)
      await say('certificate', '')
      expect(says.holds).toBe(false)
      for (const [code, file] of wanted)
        expect(
          says.findings.some((f) => f.code === code && file.test(f.file)),
          `${code} ${file} among:\n${says.findings.map((f) => `${f.code} ${f.file}`).join('\n')}`,
        ).toBe(true)
    },
  )

  test('[verify.html] a damaged record is told so that one sees what and where', async () => {
    const row = ROWS.find(({ damage }) => damage === 'a photo swapped under its name')!
    await check(await row.make({ good, files: await unpack(record) }))
    await shoot(browser.page, 'check-fails-phone')
    await browser.page.setViewportSize(DESK_SIZE)
    await shoot(browser.page, 'check-fails-desk', true)
  })

  test('[verify.html] through all of that nothing was asked of the network, and nothing was reported as an error', () => {
    expect([opened.asked, opened.errors]).toEqual([[], []])
  })
})
