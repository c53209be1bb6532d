import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { ok } from '../../api/domain/result.ts'
import { keysFrom } from '../../api/server/keys.ts'
import { createSequencer } from '../../api/server/log/sequencer.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { recordMaker } from '../../api/server/record/maker.ts'
import { sha256 } from '../../api/server/senses.ts'
import { type AskAuthority, httpAuthority, isAuthorityUrl } from '../../api/server/stamp/authority.ts'
import { dayStart } from '../../api/server/stamp/due.ts'
import { createStamper, StampFailed } from '../../api/server/stamp/stamper.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { said, verifyAll } from '../damage/record-kit.ts'
import { createChance } from '../kit/chance.ts'
import { MASTER_KEY, openHouse } from '../kit/house.ts'
import { createPhone, createWire } from '../kit/phone.ts'
import { type Authority, createAuthority, rejected, type Served, serveAuthority } from './authority.ts'
import { readStamp } from './stamp-log.ts'

const START = Date.UTC(2026, 3, 21, 12, 0, 0)
const HOUR = 3_600_000
const MINUTE = 60_000
let authority: Authority
let served: Served
beforeAll(async () => {
  authority = createAuthority()
  served = await serveAuthority((query) => authority.reply(query))
})
afterAll(async () => {
  await served?.close()
  authority?.remove()
})

/** A house whose clock a test turns, with a phone that has joined and a job that it has opened. */
const open = async (
  ask: AskAuthority = httpAuthority(served.url, new AbortController().signal),
  seed = 21,
) => {
  const chance = createChance(seed)
  const time = { now: START }
  const clock = () => ++time.now
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
  const log = async (text: string): Promise<void> => {
    await phone.log(job, 'remark.made', { remark: { lang: 'en', text } })
    expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  }
  await phone.log(job, 'job.opened', { name: 'Pellowick drive', zone: 'America/Chicago' })
  await log('forms are up')
  const reported: unknown[] = []
  const stamper = (asked = ask) =>
    createStamper({
      ...house.world,
      sequencer: createSequencer(house.world),
      ask: asked,
      read: readStamp,
      roots: [],
      report: (error) => reported.push(error),
    })
  const stamps = async () =>
    (await stores.log.thread(company, company)).filter(({ kind }) => kind === 'checkpoint.stamped')
  const sizeNow = async () => (await stores.log.newestCheckpoint(company))!.size
  const verdict = async () =>
    verifyAll(
      new Uint8Array(
        await new Response(
          await record({ company, job, language: 'en', checkpointSize: undefined }),
        ).arrayBuffer(),
      ),
      { readTimestamp: readStamp },
    )
  return { time, log, stamper, stamps, sizeNow, verdict, reported, stores, company }
}

describe('the stamper', () => {
  test('[L57] stamps nothing before a day is over, and then the last checkpoint of that day, once', async () => {
    const house = await open()
    const { tick } = house.stamper()
    await tick()
    expect(await house.stamps()).toEqual([])
    const size = await house.sizeNow()
    house.time.now = dayStart(START) + 24 * HOUR + 5 * MINUTE
    // The new day has begun, and somebody has logged already: the old day's end is what is stamped.
    await house.log('early')
    await tick()
    await tick()
    const [stamp, ...more] = await house.stamps()
    expect(more).toEqual([])
    expect(JSON.parse(new TextDecoder().decode(stamp!.bytes)).body).toMatchObject({ size })
    const verdict = await house.verdict()
    expect(said(verdict)).toEqual([])
    expect(verdict.stamps).toMatchObject([{ size, is: 'holds', upTo: 2 }])
    expect(house.reported).toEqual([])
  })

  test('[L57] asks no more on days on which nothing but a stamp came into the log', async () => {
    let asked = 0
    const ask = httpAuthority(served.url, new AbortController().signal)
    const house = await open((query) => {
      asked++
      return ask(query)
    })
    const { tick } = house.stamper()
    for (let day = 1; day <= 5; day++) {
      house.time.now = dayStart(START) + (24 * day + 1) * HOUR
      await tick()
    }
    expect([asked, (await house.stamps()).length]).toEqual([1, 1])
    await house.log('seven days on')
    house.time.now = dayStart(START) + (24 * 6 + 1) * HOUR
    await tick()
    expect([asked, (await house.stamps()).length]).toEqual([2, 2])
    const verdict = await house.verdict()
    expect([said(verdict), verdict.stamps.map(({ upTo }) => upTo)]).toEqual([[], [2, 3]])
  })

  test('[L57] waits a minute after a failure, then twice as long each time, and says what was wrong', async () => {
    const house = await open()
    served.answer = () => 503
    const { tick } = house.stamper()
    house.time.now = dayStart(START) + 25 * HOUR
    for (const wait of [1, 2, 4, 8]) {
      const before = house.reported.length
      await tick()
      expect(house.reported.length).toBe(before + 1)
      house.time.now += (wait - 0.5) * MINUTE
      await tick()
      expect(house.reported.length).toBe(before + 1)
      house.time.now += MINUTE
    }
    expect(house.reported.every((error) => error instanceof StampFailed)).toBe(true)
    expect(String(house.reported[0])).toContain('HTTP 503')
    served.answer = (query) => authority.reply(query)
    house.time.now += HOUR
    await tick()
    expect(await house.stamps()).toHaveLength(1)
  })

  test.each([
    ['for another query', () => authority.reply(lastQuery!), 'other data'],
    ['that says no', () => rejected(), 'did not grant'],
    ['of nothing that could be read', () => new Uint8Array([1, 2, 3]), 'can’t be read'],
    [
      'by a certificate for web servers',
      (query: Uint8Array) => authority.signedBy(authority.reply(query), 'web'),
      'not for time stamps',
    ],
  ] as const)('[L57] keeps no answer %s', async (_, answer, why) => {
    const house = await open()
    served.answer = answer
    house.time.now = dayStart(START) + 25 * HOUR
    await house.stamper().tick()
    served.answer = (query) => authority.reply(query)
    expect([await house.stamps(), house.reported.length]).toEqual([[], 1])
    expect(String(house.reported[0])).toContain(why)
  })

  test('[L57] never holds a push up, and loses nothing of what came meanwhile', async () => {
    let release: (() => void) | undefined
    const held = new Promise<void>((resolve) => {
      release = resolve
    })
    const house = await open(async (query) => {
      await held
      return ok(authority.reply(query))
    })
    house.time.now = dayStart(START) + 25 * HOUR
    const ticking = house.stamper().tick()
    await house.log('while the authority thinks')
    expect(await house.stamps()).toEqual([])
    release!()
    await ticking
    expect(await house.stamps()).toHaveLength(1)
    expect(said(await house.verdict())).toEqual([])
  })

  test('[L57] of two processes that ask at once one keeps the answer', async () => {
    const house = await open()
    house.time.now = dayStart(START) + 25 * HOUR
    await Promise.all([house.stamper().tick(), house.stamper().tick()])
    expect([(await house.stamps()).length, house.reported]).toEqual([1, []])
    expect(said(await house.verdict())).toEqual([])
  })

  test('[L57] an authority that nobody reaches, and one whose answer has no end, are failures and not crashes', async () => {
    const stop = new AbortController().signal
    expect(await httpAuthority('http://127.0.0.1:9/', stop)(new Uint8Array())).toMatchObject({
      ok: false,
      problem: { code: 'authority-unreachable' },
    })
    served.answer = () => new Uint8Array(300 * 1024)
    expect(await httpAuthority(served.url, stop)(new Uint8Array())).toMatchObject({
      problem: { evidence: { said: 'an answer without end' } },
    })
    served.answer = (query) => authority.reply(query)
  })

  test('[L57] TIMESTAMP_URL is an address of HTTP', () => {
    expect(['http://tsa.example/', 'https://tsa.example/x'].every(isAuthorityUrl)).toBe(true)
    expect(['tsa.example', 'ftp://tsa.example', 'file:///etc/passwd', ''].some(isAuthorityUrl)).toBe(false)
  })
})

/** A query of another day: its response is a good one for other data. */
let lastQuery: Uint8Array | undefined
beforeAll(async () => {
  const house = await open(async (query) => {
    lastQuery = query
    return ok(authority.reply(query))
  }, 22)
  house.time.now = dayStart(START) + 49 * HOUR
  await house.stamper().tick()
})
