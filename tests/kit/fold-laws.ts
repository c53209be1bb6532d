import { expect } from 'vitest'
import { NO_MEMBERS } from '../../api/domain/access/members.ts'
import { isUnread } from '../../api/domain/entry/read.ts'
import { jobFigures } from '../../api/domain/job/figures.ts'
import { foldJob } from '../../api/domain/job/fold.ts'
import type { LoggedEntry } from '../../api/domain/job/standing.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { jobModel } from '../../api/domain/record/job-model.ts'
import { type RecordModel, recordModel } from '../../api/domain/record/model.ts'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { tablesOf } from '../../api/domain/record/tables/tables.ts'
import { ANY_JOB, type AnyJob, entriesOf, otherwise } from './any-job.ts'

/** Bigints as text: JSON has none, and every figure is kept as an exact ratio of two. */
const text = (value: unknown): string =>
  JSON.stringify(value, (_, one) => (typeof one === 'bigint' ? `${one}n` : one))

/** View, figures and model are those of the set, whatever the order and however often an entry came. */
export const isFunctionOfSet = (job: AnyJob, entries = entriesOf(job)): void => {
  const again = otherwise(entries, job)
  const [view, other] = [foldJob(ANY_JOB, entries), foldJob(ANY_JOB, again)]
  expect(text(other)).toBe(text(view))
  expect(text(jobFigures(other))).toBe(text(jobFigures(view)))
  expect(modelText(again)).toBe(modelText(entries))
}

const modelText = (entries: readonly LoggedEntry[]): string =>
  canonicalJson(jobModel({ job: ANY_JOB, entries, members: NO_MEMBERS }))

/** Figures are numbers; a record's model is strings and integers; pages in both languages and tables are made of it. */
export const isShown = (job: AnyJob): void => {
  const entries = entriesOf(job)
  expect(oddNumbers(jobFigures(foldJob(ANY_JOB, entries)))).toEqual([])
  const model = recordOf(entries)
  expect(notPlain(model)).toEqual([])
  for (const language of ['en', 'es'] as const) {
    const lines = pageLines(pageOf({ ...model, language }))
    expect(lines.filter((line) => NO_NUMBER.test(line))).toEqual([])
  }
  for (const table of tablesOf(model)) expect(NO_NUMBER.test(table.text)).toBe(false)
}

const NO_NUMBER = /\bNaN\b|\bInfinity\b|\bundefined\b|\[object /

/** Paths of what is neither a safe integer nor an exact ratio over a positive number. */
const oddNumbers = (value: unknown, at = ''): string[] => {
  if (typeof value === 'number') return Number.isSafeInteger(value) ? [] : [`${at}: ${value}`]
  if (typeof value !== 'object' || value === null) return []
  const entries = Object.entries(value)
  const odd = 'd' in value && 'n' in value && (typeof value.d !== 'bigint' || value.d <= 0n)
  return odd ? [at] : entries.flatMap(([key, one]) => oddNumbers(one, `${at}/${key}`))
}

/** Paths of what is neither a string nor a safe integer. */
const notPlain = (value: unknown, at = ''): string[] => {
  if (Array.isArray(value)) return value.flatMap((one, i) => notPlain(one, `${at}/${i}`))
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, one]) => notPlain(one, `${at}/${key}`))
  return typeof value === 'string' || Number.isSafeInteger(value) ? [] : [`${at}: ${String(value)}`]
}

export const recordOf = (entries: readonly LoggedEntry[]): RecordModel =>
  recordModel({
    language: 'en',
    release: '0',
    origin: 'log.example/brindlefork',
    logKey: 'log.example/brindlefork+00000000+AAAA',
    job: ANY_JOB,
    fingerprint: 'one two three four five six seven eight',
    request: { withhold: [] },
    checkpoint: { size: entries.length, root: new Uint8Array(32) },
    made: 1_776_800_000_000,
    thread: entries.map((read, i) => ({
      count: i + 1,
      hash: read.hash,
      receivedAt: read.receivedAt ?? 1_776_800_000_000,
      read: isUnread(read) || i % 7 < 6 ? read : undefined,
    })),
    company: [],
    heads: [],
    photosHeld: new Set(['ab'.repeat(32)]),
  })
