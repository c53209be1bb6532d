import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { exportJob } from '../../api/cli/export.ts'
import { run as runVerify } from '../../api/cli/verify.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { writeVerifierKey } from '../../api/domain/log/note.ts'
import { slipWords } from '../../api/domain/log/slip.ts'
import { keysFrom } from '../../api/server/keys.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { recordMaker } from '../../api/server/record/maker.ts'
import { sha256 } from '../../api/server/senses.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createChance } from '../kit/chance.ts'
import { MASTER_KEY, openHouse } from '../kit/house.ts'
import { createPhone, createWire } from '../kit/phone.ts'
import { said, verifyAll } from './record-kit.ts'

const START = Date.UTC(2026, 3, 21, 12, 0, 0)
let folder: string
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'screedbook-export-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A log that came in through the server's own front door, from a phone. */
const open = async () => {
  const chance = createChance(11)
  let now = START
  const clock = () => ++now
  const stores = createMemoryStore()
  const photos = createPhotoMemory(sha256)
  const keysOf = keysFrom(MASTER_KEY)
  const record = recordMaker({ stores, photos, keysOf }, '0.0.0-test')
  const house = await openHouse({ chance, now: clock, stores, photos, record })
  const phone = createPhone({
    chance,
    now: clock,
    wire: createWire(async (request) => house.app.fetch(request)),
  })
  await phone.setUp(await house.setUpCode())
  const { company } = (await phone.store.transact((tx) => getMeta(tx, 'identity')))!
  const job = uuidV7(clock(), chance.bytes)
  const load = uuidV7(clock(), chance.bytes)
  await phone.log(job, 'job.opened', { name: 'Pellowick drive', zone: 'America/Chicago' })
  await phone.log(job, 'load.arrived', { load })
  await phone.log(job, 'water.added', { load, amount: { is: 'none' } })
  expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  await phone.log(job, 'load.left', { load })
  expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  const origin = (await stores.log.company(company))!.origin
  return {
    stores,
    photos,
    keysOf,
    company,
    job,
    record,
    key: writeVerifierKey(keysOf(origin).log.noteKey, sha256),
  }
}

const io = () => {
  const lines: string[] = []
  return { lines, out: (line: string) => lines.push(line), err: (line: string) => lines.push(line) }
}

describe('a record of what a phone sent through the front door', () => {
  test('[L41] is whole: nothing in it fails', async () => {
    const { company, job, record } = await open()
    const stream = await record({ company, job, language: 'en', checkpointSize: undefined })
    expect(said(await verifyAll(new Uint8Array(await new Response(stream).arrayBuffer())))).toEqual([])
  })

  test('[record] there is none of a job that nobody opened, of another company, or of a checkpoint that was not signed', async () => {
    const { company, job, record } = await open()
    const none = '019daf96-f840-7677-b8ba-000000000000'
    expect(await record({ company, job: none, language: 'en', checkpointSize: undefined })).toBeUndefined()
    expect(await record({ company: none, job, language: 'en', checkpointSize: undefined })).toBeUndefined()
    expect(await record({ company, job: company, language: 'en', checkpointSize: undefined })).toBeUndefined()
    expect(await record({ company, job, language: 'en', checkpointSize: 3 })).toBeUndefined()
  })
})

describe('screedbook export and verify', () => {
  test('[record] write a job’s record by its name, and check it, with the key and without', async () => {
    const house = await open()
    const file = path.join(folder, 'pellowick.zip')
    const words = io()
    const asked = { job: 'pellowick DRIVE', out: file, language: 'es' as const, checkpointSize: undefined }
    expect(await exportJob(house, asked, words)).toBe(0)
    expect(readdirSync(folder)).toEqual(['pellowick.zip'])
    expect(words.lines).toEqual([
      `${file} holds the record of Pellowick drive. Check it with: screedbook verify ${file}`,
    ])
    const checked = io()
    expect(await runVerify([file], checked)).toBe(0)
    expect(checked.lines.join('\n')).toContain('with the record’s own key alone')
    const withKey = io()
    expect(await runVerify([file, '--key', house.key], withKey)).toBe(0)
    expect(withKey.lines).toContain('It was checked with the key that you gave.')
  })

  test('[record] say that there is no such job, and write nothing', async () => {
    const words = io()
    const file = path.join(folder, 'none.zip')
    expect(
      await exportJob(
        await open(),
        { job: 'Nowhere', out: file, language: 'en', checkpointSize: undefined },
        words,
      ),
    ).toBe(1)
    expect([words.lines, existsSync(file)]).toEqual([['There is no job Nowhere.'], false])
  })

  test('[scope] make a record of one load by its number, and say which loads there are where there is none', async () => {
    const house = await open()
    const file = path.join(folder, 'load.zip')
    const asked = { job: house.job, out: file, language: 'en', checkpointSize: undefined } as const
    const missing = io()
    expect(await exportJob(house, { ...asked, scope: { load: '7' } }, missing)).toBe(2)
    expect(missing.lines[0]).toMatch(/^Pellowick drive has no load 7\. Its loads: 1 \([0-9a-f-]{36}\)\.$/)
    const kind = io()
    expect(await exportJob(house, { ...asked, scope: { withhold: ['job.opened'] } }, kind)).toBe(2)
    expect(kind.lines[0]).toContain('job.opened can’t be withheld')
    expect(existsSync(file)).toBe(false)
    expect(await exportJob(house, { ...asked, scope: { load: '1', withhold: ['water.added'] } }, io())).toBe(
      0,
    )
    const verdict = await verifyAll(new Uint8Array(readFileSync(file)))
    expect([said(verdict), verdict.checked.withheld]).toEqual([[], [3]])
  })

  test('[L42] name the file and the code of what fails, one a line, and end with 1', async () => {
    const house = await open()
    const file = path.join(folder, 'damaged.zip')
    await exportJob(house, { job: house.job, out: file, language: 'en', checkpointSize: undefined }, io())
    const bytes = readFileSync(file)
    bytes[bytes.indexOf('"is":"none"') + 6]! ^= 1
    writeFileSync(file, bytes)
    const checked = io()
    expect(await runVerify([file], checked)).toBe(1)
    expect(checked.lines.some((line) => /^entries\/000003\.json: .* \(file-differs\)\.$/.test(line))).toBe(
      true,
    )
    const json = io()
    expect(await runVerify([file, '--json'], json)).toBe(1)
    expect(JSON.parse(json.lines[0]!)).toMatchObject({ holds: false, keySource: 'record' })
  })

  test('[L36] verify takes a slip’s eight words, and names a word that slips do not have', async () => {
    const house = await open()
    const file = path.join(folder, 'slips.zip')
    await exportJob(house, { job: house.job, out: file, language: 'en', checkpointSize: undefined }, io())
    const newest = (await house.stores.log.newestCheckpoint(house.company))!
    const last = (await house.stores.log.thread(house.company, house.job)).at(-1)!
    const { origin } = (await house.stores.log.company(house.company))!
    const words = slipWords({ origin, head: newest, count: last.count, last: last.leafHash }, sha256)
    const checked = io()
    expect(await runVerify([file, '--slip', words.join(' ')], checked)).toBe(0)
    expect(checked.lines.join('\n')).toContain('made anew since then would not fit it')
    const other = io()
    expect(await runVerify([file, '--slip', words.toReversed().join(' ')], other)).toBe(1)
    expect(other.lines.join('\n')).toContain('slip-unknown')
    const odd = io()
    expect(await runVerify([file, '--slip', 'mortar and trowel'], odd)).toBe(2)
    expect(odd.lines.join('\n')).toContain('"mortar" is not a word that slips have')
    const few = io()
    expect(await runVerify([file, '--slip', words.slice(2).join(' ')], few)).toBe(2)
    expect(few.lines.join('\n')).toContain('these are 6')
    const noCertificate = io()
    expect(await runVerify([file, '--tsa-ca', file], noCertificate)).toBe(2)
    expect(noCertificate.lines.join('\n')).toContain('holds no certificate')
  })

  test.each([
    [[]],
    [['a', 'b']],
    [['x.zip', '--key', 'nonsense']],
    [['x.zip', '--what']],
    [['no-such-file.zip']],
  ])('[record] verify %j ends with 2 and says why', async (args) => {
    const words = io()
    expect(await runVerify(args, words)).toBe(2)
    expect(words.lines.length).toBeGreaterThan(0)
  })
})
