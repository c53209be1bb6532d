import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { type RecordModel, recordModel } from '../../api/domain/record/model.ts'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { tablesOf } from '../../api/domain/record/tables/tables.ts'
import type { Language } from '../../api/domain/words/words.ts'
import { entry, JOB } from './job/pour.ts'

export const DRIVE = '019db000-0000-7000-8000-0000000000a1'
export const PATIO = '019db000-0000-7000-8000-0000000000a4'
const PLACEMENT = '019db000-0000-7000-8000-0000000000aa'
const COMPANY = '019db000-0000-7000-8000-0000000000cc'

export const gal = (text: string) => ({ is: 'given', text, unit: 'gal' }) as const
export const inches = (text: string) => ({ is: 'given', text, unit: 'in' }) as const
export const yd3 = (text: string) => ({ is: 'given', text, unit: 'yd3' }) as const
export const at = (clock: string): string => `2026-04-21T${clock}-05:00`

export const opened = entry(
  'job.opened',
  { name: 'Tern Court', zone: 'America/Chicago' },
  { at: at('06:00') },
)

/** A drive of 12.35 yd³ and a patio of 2.77 yd³. */
export const planned = entry(
  'placement.planned',
  {
    placement: PLACEMENT,
    name: 'Drive and patio',
    parts: [
      { part: DRIVE, name: 'Drive', length: feet('40'), width: feet('20'), thickness: inches('5') },
      { part: PATIO, name: 'Patio', length: feet('16'), width: feet('14'), thickness: inches('4') },
    ],
  },
  { at: at('06:10') },
)

function feet(text: string) {
  return { is: 'given', text, unit: 'ft' } as const
}

type Given = { readonly language?: Language; readonly demo?: boolean }

/** The record's model over these entries, each at its own place of the thread. */
export const modelWith = (
  entries: readonly LoggedEntry[],
  { language = 'en', demo = false }: Given = {},
): RecordModel =>
  recordModel({
    language,
    release: '0.0.0',
    origin: `screedbook${demo ? '-demo' : ''}/${COMPANY}`,
    logKey: 'key',
    job: JOB,
    fingerprint: 'one two three four five six seven eight',
    request: { withhold: [] },
    checkpoint: { size: entries.length, root: new Uint8Array(32) },
    made: Date.parse('2026-04-22T00:00:00Z'),
    thread: entries.map((read, i) => ({
      count: i + 1,
      hash: read.hash,
      receivedAt: Date.parse('2026-04-21T12:00:00Z'),
      read,
    })),
    company: [],
    heads: [],
    photosHeld: new Set(),
  })

export const linesWith = (entries: readonly LoggedEntry[], given: Given = {}): string[] =>
  pageLines(pageOf(modelWith(entries, given)))

export type TableRow = Readonly<Record<string, string>>

/** Rows of one table by their columns' names, read back from its text alone. */
export const rowsOf = (model: RecordModel, name: string): TableRow[] => {
  const table = tablesOf(model).find((one) => one.name === `tables/${name}.csv`)
  if (!table) throw new Error(`no table ${name}`)
  const [head, ...rows] = readCsv(table.text)
  return rows.map((row) => Object.fromEntries(head!.map((column, i) => [column, row[i]!])))
}

/** The smallest reader of RFC 4180 that tells quoted from plain cells. */
export const readCsv = (text: string): string[][] => {
  const rows: string[][] = [[]]
  let cell = ''
  let quoted = false
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!
    if (quoted) {
      if (c !== '"') cell += c
      else if (text[i + 1] === '"') cell += text[i++]
      else quoted = false
    } else if (c === '"') quoted = true
    else if (c === ',' || (c === '\r' && text[i + 1] === '\n')) {
      rows.at(-1)!.push(cell)
      cell = ''
      if (c === '\r' && i++ >= 0) rows.push([])
    } else cell += c
  }
  return rows.slice(0, -1)
}
