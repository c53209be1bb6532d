import { describe, expect, test } from 'vitest'
import type { ProblemCode } from '../../api/contract/problems.ts'
import { readCheckpoint, writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { readUtf8, toUtf8 } from '../../api/domain/log/encoding.ts'
import { readNote, signNote } from '../../api/domain/log/note.ts'
import { createApp } from '../../api/server/app.ts'
import { signingKey } from '../../api/server/keys.ts'
import { sha256 } from '../../api/server/senses.ts'
import { phoneEntries } from '../../web/sync/entries.ts'
import {
  getMeta,
  type LogLeaf,
  type OwnEntry,
  ownKey,
  placeKey,
  type ThreadEndKept,
} from '../../web/sync/kept.ts'
import type { PhoneStore } from '../../web/sync/phone-store.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createMemoryPhoneStore } from '../kit/memory-phone-store.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'
import { recording, replay } from '../kit/replay.ts'
import {
  entryText,
  hashOf,
  JOB,
  LOAD,
  openSite,
  type Person,
  problemOf,
  pushed,
  type Site,
  sendPush,
  signedPush,
} from './site.ts'

const withBeto = async (): Promise<{ site: Site; beto: Person }> => {
  const site = await openSite({ seed: 3 })
  return { site, beto: await site.hire('Beto', 'crew') }
}
const remarks = (site: Site, by: Person, count: number): string[] =>
  Array.from({ length: count }, () => entryText(site, by, {}))

/** The push is refused whole, and nothing at all changes. */
const refusedWhole = async (site: Site, by: Person, request: unknown, code: ProblemCode, next?: number) => {
  const before = await site.dump()
  const problem = problemOf(await sendPush(by, request))
  expect(problem.code).toBe(code)
  expect(problem.next).toBe(next)
  expect(await site.dump()).toBe(before)
  return problem
}

describe('[L47] a push whose head does not fit its entries changes nothing', () => {
  type Signed = Awaited<ReturnType<typeof signedPush>>
  const DAMAGE: readonly [string, (whole: Signed) => unknown, ProblemCode][] = [
    ['the last entry cut off', (p) => ({ ...p, entries: p.entries.slice(0, -1) }), 'head-differs'],
    ['the first entry cut off', (p) => ({ ...p, entries: p.entries.slice(1) }), 'head-differs'],
    ['all entries cut off', (p) => ({ ...p, entries: [] }), 'head-differs'],
    ['one entry twice', (p) => ({ ...p, entries: [...p.entries, p.entries[0]] }), 'head-differs'],
    [
      'one entry in another’s place',
      (p) => ({ ...p, entries: [p.entries[0], p.entries[0], p.entries[2]] }),
      'head-differs',
    ],
    ['another order', (p) => ({ ...p, entries: p.entries.toReversed() }), 'head-differs'],
    [
      'one letter altered',
      (p) => ({ ...p, entries: p.entries.map((e) => e.replace('damp', 'dump')) }),
      'head-differs',
    ],
    ['another index', (p) => ({ ...p, from: 1 }), 'head-differs'],
    ['another epoch than was signed', (p) => ({ ...p, epoch: 2 }), 'head-signature'],
    [
      'a head with one letter altered',
      (p) => ({ ...p, head: p.head.replace('clock ', 'clocc ') }),
      'head-signature',
    ],
    ['half a head', (p) => ({ ...p, head: p.head.slice(0, 80) }), 'head-malformed'],
    ['no head', (p) => ({ ...p, head: '' }), 'head-malformed'],
  ]
  for (const [name, damage, code] of DAMAGE)
    test(`[L47] ${name}: ${code}`, async () => {
      const { site, beto } = await withBeto()
      const whole = await signedPush(beto, { entries: remarks(site, beto, 3) })
      await refusedWhole(site, beto, damage(whole), code)
      expect((await sendPush(beto, whole)).status).toBe(200)
    })

  test('[L52] a head of another device, or by another key, is of nobody', async () => {
    const { site, beto } = await withBeto()
    const entries = remarks(site, beto, 1)
    await refusedWhole(site, beto, await signedPush(site.owner, { entries }), 'head-signature')
    const thief = {
      ...beto,
      phone: { ...beto.phone, ...signerOf(createPhone({ ...site, wire: site.nobody })) },
    }
    await refusedWhole(site, beto, await signedPush(thief, { entries }), 'head-signature')
  })
})

const signerOf = ({ sign, publicKey }: Phone) => ({ sign, publicKey })

test('[L45] the same push again gets the same answer and changes nothing', async () => {
  const { site, beto } = await withBeto()
  const request = await signedPush(beto, { entries: [...remarks(site, beto, 2), 'no entry'] })
  const verdicts = async () =>
    JSON.parse(new TextDecoder().decode((await sendPush(beto, request)).body)).verdicts
  const first = await verdicts()
  const before = await site.dump()
  expect(await verdicts()).toEqual(first)
  expect(await site.dump()).toBe(before)
})

test('[L45] a push that overlaps what is there is taken from where the device log ends', async () => {
  const { site, beto } = await withBeto()
  const all = remarks(site, beto, 5)
  const first = await pushed(beto, { entries: all.slice(0, 3) })
  const { verdicts } = await pushed(beto, { before: all.slice(0, 1), entries: all.slice(1) })
  expect(verdicts.slice(0, 2)).toEqual(first.verdicts.slice(1))
  expect(verdicts.slice(2)).toMatchObject([{ is: 'kept' }, { is: 'kept' }])
  const stored = await site.stores.log.deviceLeaves(site.company, beto.identity.device, 1, 99)
  expect(stored).toEqual(all.map(hashOf))
})

test('[L47] an index beyond what the server holds changes nothing and names the index to go on from', async () => {
  const { site, beto } = await withBeto()
  const all = remarks(site, beto, 4)
  await pushed(beto, { entries: all.slice(0, 1) })
  const ahead = await signedPush(beto, { before: all.slice(0, 3), entries: all.slice(3) })
  await refusedWhole(site, beto, ahead, 'push-gap', 1)
})

test('[L47] an epoch further on than the next one changes nothing and names the next', async () => {
  const { site, beto } = await withBeto()
  const request = await signedPush(beto, { epoch: 3, entries: remarks(site, beto, 1) })
  await refusedWhole(site, beto, request, 'epoch-unknown', 1)
})

test('[L47] too many entries, or too many bytes, are refused whole', async () => {
  const { site, beto } = await withBeto()
  const many = await signedPush(beto, { entries: Array.from({ length: 201 }, () => '{}') })
  await refusedWhole(site, beto, many, 'request-malformed')
  const large = await signedPush(beto, { entries: ['x'.repeat(4 * 1024 * 1024)] })
  await refusedWhole(site, beto, large, 'request-too-large')
  const most = await pushed(beto, { entries: Array.from({ length: 200 }, () => entryText(site, beto, {})) })
  expect(most.verdicts.every((verdict) => verdict.is === 'kept')).toBe(true)
})

const METAS = ['identity', 'device-log', 'company-log', 'evidence', 'clock-offset'] as const

/** Another store with all that this one holds, as a phone's backup would make it. */
const copyOf = async (store: PhoneStore): Promise<PhoneStore> => {
  const copy = createMemoryPhoneStore()
  await store.transact(async (from) => {
    await copy.transact(async (to) => {
      for (const key of METAS) {
        const value = await from.get('meta', key)
        if (value !== undefined) await to.put('meta', key, value)
      }
      for (const own of await from.list<OwnEntry>('own'))
        await to.put('own', ownKey(own.epoch, own.index), own)
      for (const leaf of await from.list<LogLeaf>('log')) await to.put('log', placeKey(leaf.position), leaf)
      for (const end of await from.list<ThreadEndKept>('threads')) await to.put('threads', end.tag, end)
    })
  })
  return copy
}
/** The same phone, key and all, over another store. */
const clone = (site: Site, phone: Phone, store: PhoneStore): Phone => ({
  ...createPhone({ ...site, store, wire: createWire(site.send) }),
  ...signerOf(phone),
})
const statesOf = (phone: Phone) =>
  phone.store.transact(async (tx) =>
    (await tx.list<OwnEntry>('own')).map(({ epoch, hash, state }) => ({ epoch, hash, is: state.is })),
  )
const headsOf = async (site: Site, device: string) =>
  (await site.stores.log.heads(site.company)).filter((head) => head.device === device)

describe('[L25] a phone that was copied or restored goes on in a new epoch, and both heads are kept', () => {
  test('[L25] a clone: its entries land in epoch 2, none lost, none twice', async () => {
    const { site, beto } = await withBeto()
    const { device } = beto.identity
    const load = LOAD
    const shared = [await beto.phone.log(JOB, 'load.arrived', { load })]
    await syncRound(beto.phone)
    const twin = clone(site, beto.phone, await copyOf(beto.phone.store))
    const first = [await beto.phone.log(JOB, 'discharge.started', { load })]
    const second = [
      await twin.log(JOB, 'water.added', { load, amount: { is: 'none' } }),
      await twin.log(JOB, 'discharge.ended', { load }),
    ]
    expect(await syncRound(beto.phone)).toMatchObject({ is: 'synced' })
    expect(await syncRound(twin)).toMatchObject({ is: 'synced', push: { is: 'pushed' } })
    const thread = await site.stores.log.thread(site.company, JOB)
    expect(thread.map((leaf) => leaf.entryHash)).toEqual([...shared, ...first, ...second])
    const leaves = (epoch: number) => site.stores.log.deviceLeaves(site.company, device, epoch, 9)
    expect(await leaves(1)).toEqual([...shared, ...first])
    expect(await leaves(2)).toEqual(second)
    const heads = await headsOf(site, device)
    expect(heads.map(({ epoch, size, disputed }) => ({ epoch, size, disputed }))).toEqual([
      { epoch: 1, size: 1, disputed: false },
      { epoch: 1, size: 2, disputed: false },
      { epoch: 1, size: 3, disputed: true },
      { epoch: 2, size: 2, disputed: false },
    ])
    expect(await statesOf(twin)).toEqual([
      { epoch: 1, hash: shared[0], is: 'kept' },
      ...second.map((hash) => ({ epoch: 2, hash, is: 'kept' })),
    ])
    // The first goes on too, in an epoch of its own.
    const later = await beto.phone.log(JOB, 'load.left', { load })
    expect(await syncRound(beto.phone)).toMatchObject({ is: 'synced' })
    expect((await site.stores.log.thread(site.company, JOB)).at(-1)).toMatchObject({ entryHash: later })
    await syncRound(twin)
    const seen = await Promise.all(
      [beto.phone, twin].map((p) => p.store.transact((tx) => phoneEntries(tx, p.sha256))),
    )
    expect(seen[0]!.logged.map((e) => e.hash).sort()).toEqual(seen[1]!.logged.map((e) => e.hash).sort())
  })

  test('[L47] the push that showed the fork adds nothing but its head', async () => {
    const { site, beto } = await withBeto()
    const [a, b] = [remarks(site, beto, 1), remarks(site, beto, 1)]
    await pushed(beto, { entries: a })
    const size = await site.size()
    const problem = problemOf(await sendPush(beto, await signedPush(beto, { entries: b })))
    expect(problem).toMatchObject({ code: 'device-forked', next: 2 })
    expect(await site.size()).toBe(size)
    expect(await site.stores.log.deviceLeaves(site.company, beto.identity.device, 1, 9)).toEqual(
      a.map(hashOf),
    )
    expect((await headsOf(site, beto.identity.device)).map((head) => head.disputed)).toEqual([false, true])
  })

  test('[L25] a phone restored from an older snapshot: nothing lost, nothing twice', async () => {
    const { site, beto } = await withBeto()
    const load = LOAD
    await beto.phone.log(JOB, 'load.arrived', { load })
    await syncRound(beto.phone)
    // Logged, in the backup, and sent only after it.
    const between = await beto.phone.log(JOB, 'discharge.started', { load })
    const backup = await copyOf(beto.phone.store)
    const lost = await beto.phone.log(JOB, 'discharge.ended', { load })
    await syncRound(beto.phone)
    const restored = clone(site, beto.phone, backup)
    const fresh = await restored.log(JOB, 'load.left', { load })
    expect(await syncRound(restored)).toMatchObject({ is: 'synced' })
    const hashes = (await site.stores.log.thread(site.company, JOB)).map((leaf) => leaf.entryHash)
    expect(hashes.slice(1)).toEqual([between, lost, fresh])
    const { logged, own } = await restored.store.transact((tx) => phoneEntries(tx, restored.sha256))
    expect(logged.map((entry) => entry.hash)).toContain(lost)
    expect(own.every((entry) => entry.state.is === 'kept' && entry.state.landed)).toBe(true)
  })
})

describe('[L49] a server shown a later checkpoint of its own stops for that company and keeps the note', () => {
  /** A server with two phones in step, and another that was restored from a backup of it. */
  const restored = async () => {
    const kept = recording()
    const site = await openSite({ seed: 4, stores: kept.stores })
    const beto = await site.hire('Beto', 'crew')
    await beto.phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
    await syncRound(beto.phone)
    const backup = kept.steps.length
    await beto.phone.log(JOB, 'load.arrived', { load: LOAD })
    await syncRound(beto.phone)
    const stores = await replay(kept.steps.slice(0, backup), site.stores.accounts)
    const { log, accounts, views } = stores
    const house = await createApp({ ...site.house.world, store: log, accounts, views })
    const go = (phone: Phone): Phone => ({ ...phone, wire: createWire(async (r) => house.app.fetch(r)) })
    return { site, beto: go(beto.phone), owner: go(site.owner.phone), stores, house }
  }

  test('[L49] it says log-contradicted, then log-stopped to all, and takes nothing more', async () => {
    const { site, beto, owner, stores } = await restored()
    const seen = (await beto.store.transact((tx) => getMeta(tx, 'company-log')))!.note
    await beto.log(JOB, 'discharge.started', { load: LOAD })
    await owner.log(JOB, 'remark.made', { remark: { lang: 'en', text: 'Second truck late' } })
    const before = (await stores.log.company(site.company))!
    expect(await syncRound(beto)).toMatchObject({
      is: 'stopped',
      push: { is: 'stopped', refused: { code: 'log-contradicted' } },
    })
    expect(await stores.log.company(site.company)).toEqual({
      ...before,
      stopped: { code: 'log-contradicted', evidence: seen },
    })
    for (const phone of [owner, beto])
      expect(await syncRound(phone)).toMatchObject({ push: { refused: { code: 'log-stopped' } } })
    expect((await stores.log.company(site.company))!.frontier).toEqual(before.frontier)
    const own = await beto.store.transact((tx) => tx.list<OwnEntry>('own'))
    expect(own.at(-1)!.state).toEqual({ is: 'waiting' })
  })

  test('[L49] it stays stopped in the next process, and reads go on', async () => {
    const { site, beto, owner, stores } = await restored()
    await beto.log(JOB, 'discharge.started', { load: LOAD })
    await syncRound(beto)
    const { log, accounts, views } = stores
    const next = await createApp({ ...site.house.world, store: log, accounts, views })
    const phone: Phone = { ...owner, wire: createWire(async (r) => next.app.fetch(r)) }
    await phone.log(JOB, 'load.left', { load: LOAD })
    expect(await syncRound(phone)).toMatchObject({ push: { refused: { code: 'log-stopped' } } })
    for (const path of ['/api/pull?from=0', '/api/jobs', `/api/jobs/${JOB}`, `/api/jobs/${JOB}/slip`])
      expect((await phone.wire({ method: 'GET', path })).status, path).toBe(200)
  })

  test('[L49] a phone in step with the restored server is not troubled by it', async () => {
    const { owner } = await restored()
    await owner.log(JOB, 'load.left', { load: LOAD })
    expect(await syncRound(owner)).toMatchObject({ is: 'synced' })
  })
})

describe('[L49] which notes stop the log', () => {
  const newestOf = async (site: Site) => (await site.stores.log.newestCheckpoint(site.company))!
  const later = async (site: Site, size: number, root = new Uint8Array(32).fill(5)) =>
    writeCheckpoint({ origin: site.owner.identity.origin, size, root })

  test('[L49] one of a size that the log has, with another root, signed by its key, does', async () => {
    const { site, beto } = await withBeto()
    const { log } = site.house.world.keysOf(site.owner.identity.origin)
    const note = await signNote(await later(site, (await newestOf(site)).size), log.noteKey, log.sign, sha256)
    const request = await signedPush(beto, { entries: remarks(site, beto, 1), seen: note })
    expect(problemOf(await sendPush(beto, request)).code).toBe('log-contradicted')
    expect((await site.stores.log.company(site.company))!.stopped).toEqual({
      code: 'log-contradicted',
      evidence: note,
    })
  })

  test('[L49] a forged one does not, nor one of another log, nor one that the head does not name', async () => {
    const { site, beto } = await withBeto()
    const elsewhere = await site.found('Heron Creek Slabs', 'Lou')
    const { log } = site.house.world.keysOf(site.owner.identity.origin)
    const text = await later(site, 9_000)
    const thief = signingKey(new Uint8Array(32).fill(6))
    const entries = remarks(site, beto, 1)
    const forged = await signNote(text, { ...log.noteKey, publicKey: thief.publicKey }, thief.sign, sha256)
    // The log's own name and key id over a signature that is not its own.
    const own = (await newestOf(site)).note
    const pasted = `${text}${own.slice(own.lastIndexOf('\n\n') + 1)}`
    for (const seen of [forged, pasted]) {
      expect(readNote(toUtf8(seen)).ok).toBe(true)
      await refusedWhole(site, beto, await signedPush(beto, { entries, seen }), 'request-malformed')
    }
    const other = (await site.stores.log.newestCheckpoint(elsewhere.identity.company))!.note
    await refusedWhole(site, beto, await signedPush(beto, { entries, seen: other }), 'request-malformed')
    const unnamed = { ...(await signedPush(beto, { entries })), seen: own }
    await refusedWhole(site, beto, unnamed, 'head-differs')
    const named = { ...(await signedPush(beto, { entries, seen: own })), seen: '' }
    await refusedWhole(site, beto, named, 'head-differs')
    expect((await pushed(beto, { entries, seen: own })).verdicts).toMatchObject([{ is: 'kept' }])
  })

  test('[L49] every checkpoint that this log ever signed is taken', async () => {
    const { site, beto } = await withBeto()
    const notes: string[] = []
    for (let size = 1; size <= (await newestOf(site)).size; size++) {
      const row = await site.stores.log.checkpointAt(site.company, size)
      if (row) notes.push(row.note)
    }
    expect(notes.length).toBeGreaterThan(2)
    const before: string[] = []
    for (const seen of notes) {
      const entries = remarks(site, beto, 1)
      expect((await pushed(beto, { before, entries, seen })).verdicts).toMatchObject([{ is: 'kept' }])
      before.push(...entries)
    }
    expect(readCheckpoint(`${notes[0]!.split('\n\n')[0]}\n`).ok).toBe(true)
  })

  test('[L49] one company’s contradiction does not stop another’s log', async () => {
    const { site, beto } = await withBeto()
    const lou = await site.found('Heron Creek Slabs', 'Lou')
    const { log } = site.house.world.keysOf(site.owner.identity.origin)
    const seen = await signNote(await later(site, 9_000), log.noteKey, log.sign, sha256)
    const request = await signedPush(beto, { entries: remarks(site, beto, 1), seen })
    expect(problemOf(await sendPush(beto, request)).code).toBe('log-contradicted')
    expect((await pushed(lou, { entries: remarks(site, lou, 1) })).verdicts).toMatchObject([{ is: 'kept' }])
  })
})

describe('[L29] what a withdrawn device pushes is set aside', () => {
  const withdrawn = async () => {
    const { site, beto } = await withBeto()
    const first = remarks(site, beto, 1)
    await pushed(beto, { entries: first })
    await site.owner.phone.log(site.company, 'device.withdrawn', { device: beto.identity.device })
    await syncRound(site.owner.phone)
    return { site, beto, first }
  }

  test('[L29] outside every figure and noted by hash alone, and it learns neither size nor place', async () => {
    const { site, beto, first } = await withdrawn()
    const job = async () =>
      new TextDecoder().decode(
        (await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` })).body,
      )
    const [before, model] = [await site.size(), await job()]
    const entries = [entryText(site, beto, { kind: 'load.arrived', body: { load: LOAD } }), 'no entry']
    const answer = await pushed(beto, { before: first, entries })
    expect(answer).toEqual({
      verdicts: [{ is: 'set-aside' }, { is: 'set-aside' }],
      size: 0,
      serverTime: answer.serverTime,
    })
    expect(await site.size()).toBe(before + 1)
    const { bytes } = (await site.stores.log.thread(site.company, site.company)).at(-1)!
    expect(JSON.parse(readUtf8(bytes!)!)).toMatchObject({
      kind: 'push.quarantined',
      body: { device: beto.identity.device, entries: entries.map(hashOf) },
    })
    expect(JSON.parse(await job()).model).toEqual(JSON.parse(model).model)
    const aside = await site.stores.log.transact(site.company, (tx) => tx.setAside(entries.map(hashOf)))
    expect(aside.map((row) => readUtf8(row.bytes)).sort()).toEqual([...entries].sort())
    // The same again is noted no second time.
    const size = await site.size()
    await pushed(beto, { before: first, entries })
    expect(await site.size()).toBe(size)
    expect((await beto.phone.wire({ method: 'GET', path: '/api/pull?from=0' })).status).toBe(403)
  })

  test('[L29] a push that would be a gap or a fork tells it nothing either', async () => {
    const { site, beto, first } = await withdrawn()
    for (const parts of [
      { before: [...first, ...remarks(site, beto, 5)], entries: remarks(site, beto, 1) },
      { before: [], entries: remarks(site, beto, 1) },
      { before: [], entries: remarks(site, beto, 1), epoch: 8 },
    ]) {
      const answer = await pushed(beto, parts)
      expect(answer).toMatchObject({ verdicts: [{ is: 'set-aside' }], size: 0 })
    }
  })

  test('[L29] the phone keeps them as set aside', async () => {
    const { site } = await withBeto()
    const dale = await site.hire('Dale', 'crew')
    await site.owner.phone.log(site.company, 'device.withdrawn', { device: dale.identity.device })
    await syncRound(site.owner.phone)
    const hash = await dale.phone.log(JOB, 'load.arrived', { load: LOAD })
    await syncRound(dale.phone)
    expect(await statesOf(dale.phone)).toEqual([{ epoch: 1, hash, is: 'set-aside' }])
  })
})
