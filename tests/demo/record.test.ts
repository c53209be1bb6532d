import { beforeAll, describe, expect, test } from 'vitest'
import { readPdfText } from '../../api/cli/pdf-text.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { makeRecord } from '../../api/server/record/make-record.ts'
import { hashFile, sha256, verifySignature } from '../../api/server/senses.ts'
import { verifyRecord } from '../../api/verify/verify.ts'
import { type Files, textOf, unpack } from '../damage/record-kit.ts'
import { buildDemo, type DemoHouse, modelOf } from './demo-house.ts'

let demo: DemoHouse
const exported = async (language: 'en' | 'es'): Promise<Uint8Array> => {
  const { world, built } = demo
  const origin = (await world.store.company(built.company))!.origin
  const made = await makeRecord({
    store: world.store,
    company: built.company,
    job: built.job,
    language,
    checkpointSize: undefined,
    release: '0.0.0-test',
    log: world.keysOf(origin).log,
    photos: async (hash) => (await world.photos.open(built.company, hash))?.stream,
  })
  if (!made.ok) throw new Error(JSON.stringify(made.problem))
  return new Uint8Array(await new Response(made.value).arrayBuffer())
}
beforeAll(async () => {
  demo = await buildDemo()
})

describe.each(['en', 'es'] as const)('the demonstration’s record in %s', (language) => {
  let record: Uint8Array
  let files: Files
  let pages: string
  beforeAll(async () => {
    record = await exported(language)
    files = await unpack(record)
    pages = (await readPdfText(files.get('record.pdf')!)).join('\n')
  })

  test('[L41] holds, with every entry, author, photo, figure and the page’s text checked', async () => {
    const verdict = await verifyRecord(record, { sha256, hashFile, verify: verifySignature, readPdfText })
    expect(verdict.findings).toEqual([])
    expect(verdict).toMatchObject({
      holds: true,
      checked: { withheld: [], photos: 21, figures: 'compared', pdf: 'compared' },
    })
    expect(verdict.checked.entries).toBe(verdict.checked.leaves)
  })

  test('[L12] says that it is a demonstration, in its origin and on each sheet', async () => {
    const model = JSON.parse(textOf(files, 'record.json')) as RecordModel
    expect(model.origin).toBe(`screedbook-demo/${demo.built.company}`)
    for (const sheet of await readPdfText(files.get('record.pdf')!)) expect(sheet).toContain('DEMO')
  })

  test('record.json holds the same job that phone and server work out', async () => {
    const model = JSON.parse(textOf(files, 'record.json')) as RecordModel
    expect(model.job).toEqual(JSON.parse(JSON.stringify(await modelOf(demo))))
  })

  test('the figures that a dispute would turn on stand on the page', () => {
    for (const figure of [
      '36',
      '63',
      '84',
      '118',
      '32',
      '43',
      '97',
      '17.43',
      '18.45',
      '0.441',
      '0.461',
      '0.470',
    ])
      expect(pages).toContain(figure)
    for (const words of ['71340', '71352', '71371', 'FT-20417', 'County 9', '24 ft 4 in'])
      expect(pages).toContain(words)
  })
})
