import { beforeAll, describe, expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import type { RecordRequest } from '../../api/domain/record/request.ts'
import { makeRecord } from '../../api/server/record/make-record.ts'
import { hashFile, sha256, verifySignature } from '../../api/server/senses.ts'
import { verifyRecord } from '../../api/verify/verify.ts'
import { LOAD_2, PLACEMENT } from '../../seeds/jobs/tern-court/site.ts'
import { textOf, unpack } from '../damage/record-kit.ts'
import { buildDemo, type DemoHouse } from './demo-house.ts'

let demo: DemoHouse
beforeAll(async () => {
  demo = await buildDemo()
})

const exported = async (scope: RecordRequest, language: 'en' | 'es' = 'en'): Promise<Uint8Array> => {
  const { world, built } = demo
  const origin = (await world.store.company(built.company))!.origin
  const made = await makeRecord({
    store: world.store,
    company: built.company,
    job: built.job,
    language,
    checkpointSize: undefined,
    scope,
    release: '0.0.0-test',
    log: world.keysOf(origin).log,
    photos: async (hash) => (await world.photos.open(built.company, hash))?.stream,
  })
  if (!made.ok) throw new Error(JSON.stringify(made.problem))
  return new Uint8Array(await new Response(made.value).arrayBuffer())
}
const checked = (record: Uint8Array) =>
  verifyRecord(record, { sha256, hashFile, verify: verifySignature, readPdfText })

const REQUESTS: readonly (readonly [string, RecordRequest])[] = [
  ['the trouble load, without the customer', { load: LOAD_2, withhold: ['personal'] }],
  ['the days after the pour', { from: '2026-04-22', to: '2026-11-30', withhold: [] }],
  [
    'the placement, without remarks and photos',
    { placement: PLACEMENT, withhold: ['photo.taken', 'remark.made'] },
  ],
]

describe.each(REQUESTS)('[L43] a record of %s', (_name, request) => {
  test('holds, and what it leaves out stays in count and place', async () => {
    const record = await exported(request)
    const verdict = await checked(record)
    expect(verdict.findings).toEqual([])
    expect(verdict.checked).toMatchObject({ figures: 'compared', pdf: 'compared' })
    expect(verdict.checked.withheld.length).toBeGreaterThan(0)
    expect(verdict.checked.entries + verdict.checked.withheld.length).toBe(verdict.checked.leaves)
    const files = await unpack(record)
    const model = JSON.parse(textOf(files, 'record.json')) as RecordModel
    const out = model.thread.flatMap(({ is, count }) => (is === 'withheld' ? [count] : []))
    expect(out).toEqual(verdict.checked.withheld)
    for (const count of out) expect(files.has(`entries/${String(count).padStart(6, '0')}.json`)).toBe(false)
    for (const sheet of await readPdfText(files.get('record.pdf')!))
      expect(sheet).toContain(`${out.length} entries not in this record`)
  })
})

test('[L38] the same request gives the same bytes, and another one the same fingerprint', async () => {
  const request: RecordRequest = { load: LOAD_2, withhold: ['personal'] }
  const [first, second] = [await exported(request), await exported(request)]
  expect(Buffer.compare(first, second)).toBe(0)
  const fingerprint = async (record: Uint8Array) =>
    (JSON.parse(textOf(await unpack(record), 'record.json')) as RecordModel).fingerprint
  expect(await fingerprint(first)).toBe(await fingerprint(await exported({ withhold: [] }, 'es')))
})

test('[scope] a withheld customer’s name is nowhere in the record', async () => {
  const files = await unpack(await exported({ withhold: ['personal'] }))
  const pages = (await readPdfText(files.get('record.pdf')!)).join('\n')
  expect(pages).toContain('customer and address')
  for (const [name, bytes] of files) {
    if (!/\.(?:json|csv)$/.test(name)) continue
    expect(Buffer.from(bytes).toString('utf8'), name).not.toMatch(
      /"name":"Nora and Dell|418 Tern Court, Wenmark/,
    )
  }
})
