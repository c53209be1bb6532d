import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { beforeAll, describe, expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { type Page, pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { isDrawn, printable } from '../../api/domain/record/printable.ts'
import { tablesOf } from '../../api/domain/record/tables/tables.ts'
import { recordEn as en } from '../../api/domain/words/record-en.ts'
import { recordEs as es } from '../../api/domain/words/record-es.ts'
import { typeset } from '../../api/server/record/typeset/typeset.ts'
import { pageDifference } from '../../api/verify/page-text.ts'
import { type GoodLog, makeGoodLog } from '../damage/good-log.ts'
import { recordBytes } from '../damage/make-good.ts'
import { textOf, unpack } from '../damage/record-kit.ts'

let good: GoodLog
let model: RecordModel
let lines: string[]
beforeAll(async () => {
  good = await makeGoodLog()
  model = JSON.parse(textOf(await unpack(await recordBytes(good)), 'record.json')) as RecordModel
  lines = pageLines(pageOf(model))
})

describe('the page', () => {
  test('[record] prints none, not taken, not stated, not sure and not recorded as five different texts', () => {
    for (const words of [en, es])
      expect(
        new Set([
          words.recNone,
          words.recNotTaken,
          words.recNotStated,
          words.recNotSure,
          words.recNotRecorded,
        ]).size,
      ).toBe(5)
  })

  test('[record] never prints what was judged by eye as measured', () => {
    expect(lines).toContain('2 1/2 in, by eye, not measured, 09:39, Marisol; limit not stated')
    expect(lines).toContain('4 1/4 in, cone, 07:51, Curt; corrected, first: see entry 8; limit not stated')
  })

  test('[record] prints a comparison with its number and limit, and no judgement', () => {
    expect(lines).toContain('inside: 63 of 90 min')
    expect(lines).toContain('limit not stated')
    const record = (words: Record<string, string>) =>
      Object.entries(words)
        .filter(([key]) => key.startsWith('rec'))
        .map(([, text]) => text)
        .join(' ')
    expect(record(en)).not.toMatch(/complian|violat|\bfaults?\b|\bsafe\b|caused by|certif/i)
    expect(record(es)).not.toMatch(/cumpl|infracci|violaci|\bculpa|\bsegur|causado por|certific/i)
  })

  test('[record] prints both answers where two stand, and both values of a correction', () => {
    expect(lines).toContain('2 answers stand:')
    expect(lines).toContain('118 min or 119 min')
    expect(lines.join('\n')).toContain(
      'Before: entry 8: 5 in, cone, Curt. Now: 4 1/4 in, cone. Why: misread the tape.',
    )
  })

  test('[record] marks a corrected value where it is read, on the page and in the table', () => {
    const spanish = pageLines(pageOf({ ...model, language: 'es' }))
    expect(spanish.join('\n')).toContain('07:51, Curt; corregido, primero: ver apunte 8')
    const table = tablesOf(model).find(({ name }) => name === 'tables/loads.csv')!.text
    const cells = table.split('\r\n').map((line) => line.slice(line.indexOf(model.photosHeld[0]!) + 65))
    expect(cells[1]).toBe('"slump: entry 9, first 8"')
    expect(table.split('\r\n')[2]).toMatch(/,none$/)
  })

  test('[record] marks a ticket that corrects one that the record does not hold, once a cell', () => {
    const [first] = model.job.loads
    const hash = first!.tickets[0]!.entry
    const history = model.job.history.map((entry) =>
      entry.entry === hash ? { ...entry, corrects: ['ab'.repeat(32)] } : entry,
    )
    expect(pageLines(pageOf({ ...model, job: { ...model.job, history } }))).toContain(
      '71340; corrected, first: see an entry that this record does not hold',
    )
  })

  test('[record] names each entry that was received long after, or before, its recorded time', () => {
    // The phone's last entry is of another job, so that its clock is not known against the server's.
    const unknown = lines.find((line) => line.includes('not known against the server’s'))
    expect(unknown).toContain('No entry of this job by this device was received more than 60 min after')
    expect(lines.join('\n')).toContain(
      'recorded time: entry 13 (62 min), entry 14 (61 min), entry 15 (61 min). The',
    )
    const minutes = [60, 61, 1440, -2, -3]
    const history = model.job.history.map((entry, i) => ({ ...entry, receiptMinutes: minutes[i] ?? 0 }))
    const count = (i: number) => model.thread.find((slot) => slot.entry === history[i]!.entry)!.count
    const named = `entry ${count(1)} (61 min), entry ${count(2)} (1440 min), entry ${count(4)} (-3 min)`
    const off = pageLines(pageOf({ ...model, job: { ...model.job, history } }))
    expect(off).toContain(
      `Received more than 60 min after, or before, the recorded time: ${named}. The phone had no network, or its clock was off.`,
    )
    expect(off.find((line) => line.includes('not known against the server’s'))).toContain(
      `more than 60 min after, or before, their recorded time: ${named}. It had no network`,
    )
  })

  test('[record] states no language of a remark, no ticket that nobody logged, and how loads are numbered', () => {
    expect(lines.join('\n')).toContain('held him at the crossing.” (10:23, Marisol)')
    expect(lines.some((line) => line.includes('the ticket number names a load for good'))).toBe(true)
    const ticketed = { ...model.job.ticketed, loadsWithout: 2 }
    expect(pageLines(pageOf({ ...model, job: { ...model.job, ticketed } }))).toContain(
      '2 loads are not in that sum: no yards recorded, or two answers.',
    )
  })

  test('[record] says on the page what it does not show, and how to check it', () => {
    expect(lines).toContain(en.recNotShown)
    expect(lines).toContain(en.recHow)
    expect(lines.some((line) => line.includes(model.logKey))).toBe(true)
  })

  test('[record] says a word for each of its codes in both languages, and leaves no gap to fill', () => {
    for (const language of ['en', 'es'] as const)
      for (const line of pageLines(pageOf({ ...model, language })))
        expect(line).not.toMatch(/\{\w+\}|undefined|\[object/)
  })
})

describe('what the typeface can draw', () => {
  test('[record] is what the fonts’ own tables say, less white space and what nobody sees', () => {
    const drawn = ['400Regular', '700Bold'].map(charactersOf)
    const missing = Array.from({ length: 0x2600 }, (_, c) => c).filter(
      (c) => isDrawn(c) && !drawn.every((font) => font.has(c)),
    )
    expect(missing).toEqual([])
  })

  test('[record] prints anything else as its number, and moves no text about', () => {
    expect(printable('a\u00adb 😀 \u202Eevil\tx\n y')).toBe('a[U+00AD]b [U+1F600] [U+202E]evil x y')
    expect(printable('¿Qué? ½ × “ok” – ñ')).toBe('¿Qué? ½ × “ok” – ñ')
  })
})

describe('typesetting', () => {
  const pageWith = (text: string): Page => ({
    title: 'T',
    footer: 'page {page} of {pages}',
    blocks: [
      { is: 'title', text: 'T' },
      { is: 'list', items: [text] },
    ],
  })

  test('[record] puts every line of a page of many sheets and of very tall cells on paper, in order', async () => {
    const tall = Array.from({ length: 8 }, (_, i) => `${i} ${'W'.repeat(60)}`)
    const page: Page = {
      ...pageWith('end'),
      blocks: [
        { is: 'title', text: 'W'.repeat(120) },
        { is: 'pairs', rows: [['Job', `${'x'.repeat(200)} (y)`]] },
        {
          is: 'table',
          columns: 5,
          cells: Array.from({ length: 100 }, (_, i) =>
            i < 5 ? [`Load ${i}`] : i % 5 === 0 ? [`row ${i}`] : tall,
          ),
        },
        { is: 'list', items: Array.from({ length: 60 }, (_, i) => `${i} ${'word '.repeat(80).trim()}`) },
      ],
    }
    const pdf = await typeset(page, { language: 'en', createdAt: 0 })
    if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
    expect(await pageDifference(page, () => readPdfText(pdf.value))).toBeUndefined()
  })

  test('[L41.11] lets a table that goes on over a sheet’s edge bear its head again, and nothing else', async () => {
    const rows = Array.from({ length: 90 }, (_, i) => [`row ${i}`, 'said'])
    const page: Page = {
      ...pageWith('end'),
      blocks: [
        { is: 'paragraph', text: 'before' },
        { is: 'grid', widths: [1, 1], rows: [['When', 'What'], ...rows] },
        { is: 'paragraph', text: 'after' },
      ],
    }
    const pdf = await typeset(page, { language: 'en', createdAt: 0 })
    if (!pdf.ok) throw new Error(JSON.stringify(pdf.problem))
    const sheets = await readPdfText(pdf.value)
    expect(sheets.length).toBeGreaterThan(1)
    expect(sheets[1]!.replaceAll(/\s/g, '')).toMatch(/^WhenWhatrow/)
    expect(await pageDifference(page, async () => sheets)).toBeUndefined()
    const forged = (change: (sheet: string) => string) => async () => [change(sheets[0]!), ...sheets.slice(1)]
    for (const change of [
      (sheet: string) => `When What ${sheet}`,
      (sheet: string) => sheet.replace('before', 'before When What'),
      (sheet: string) => sheet.replace('When', ''),
    ])
      expect(await pageDifference(page, forged(change))).toMatch(/^its text is not that of record.json/)
  })

  test('[record] gives up on a page that takes too long, and says so', async () => {
    const gone = await typeset(pageWith('x'), { language: 'en', createdAt: 0, limits: { ms: 1, bytes: 1e9 } })
    expect(gone).toMatchObject({ ok: false, problem: { code: 'typeset-time' } })
  })

  test.runIf(process.platform === 'linux')(
    '[record] gives up on a page that takes too much memory, and says so',
    async () => {
      const gone = await typeset(pageWith('x'), {
        language: 'en',
        createdAt: 0,
        limits: { ms: 60_000, bytes: 1e6 },
      })
      expect(gone).toMatchObject({ ok: false, problem: { code: 'typeset-memory' } })
    },
  )

  test('[record] says what was wrong with a page that can’t be set, and sets the next one', async () => {
    const gone = await typeset(pageWith('no such letter: 😀'), { language: 'en', createdAt: 0 })
    expect(gone).toMatchObject({ ok: false, problem: { code: 'typeset-failed' } })
    expect((await typeset(pageWith('fine'), { language: 'en', createdAt: 0 })).ok).toBe(true)
  })
})

/** Code points of a font's character map, format 4. Source: OpenType 1.9, cmap. */
const charactersOf = (style: string): Set<number> => {
  const file = createRequire(import.meta.url).resolve(
    `@expo-google-fonts/atkinson-hyperlegible/${style}/AtkinsonHyperlegible_${style}.ttf`,
  )
  const font = readFileSync(file)
  const tables = Array.from({ length: font.readUInt16BE(4) }, (_, i) => 12 + 16 * i)
  const cmap = font.readUInt32BE(tables.find((at) => font.toString('latin1', at, at + 4) === 'cmap')! + 8)
  const found = new Set<number>()
  for (let i = 0; i < font.readUInt16BE(cmap + 2); i++) {
    const at = cmap + font.readUInt32BE(cmap + 8 + 8 * i)
    if (font.readUInt16BE(at) !== 4) continue
    const segments = font.readUInt16BE(at + 6) / 2
    for (let s = 0; s < segments; s++) {
      const end = font.readUInt16BE(at + 14 + 2 * s)
      const start = font.readUInt16BE(at + 16 + 2 * segments + 2 * s)
      const delta = font.readUInt16BE(at + 16 + 4 * segments + 2 * s)
      const rangeAt = at + 16 + 6 * segments + 2 * s
      const range = font.readUInt16BE(rangeAt)
      for (let c = start; c <= end && c < 0xffff; c++) {
        const glyph =
          range === 0 ? (c + delta) & 0xffff : font.readUInt16BE(rangeAt + range + 2 * (c - start))
        if (glyph !== 0) found.add(c)
      }
    }
  }
  return found
}
