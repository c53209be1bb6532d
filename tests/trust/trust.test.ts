import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { deviceOrigin, writeHead } from '../../api/domain/log/device-log.ts'
import { readBase64, readUtf8, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { openNote, readVerifierKey, signNote } from '../../api/domain/log/note.ts'
import { recordEn } from '../../api/domain/words/record-en.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import { stampQuery } from '../../api/server/stamp/request.ts'
import type { LeafRow } from '../../db/log-store/log-store.ts'
import { getMeta, type LogLeaf, type OwnEntry } from '../../web/sync/kept.ts'
import { logEntry } from '../../web/sync/log-entry.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import { evidenceOf, NO_ANSWER, openTwo } from '../api/second-server.ts'
import { entryText, JOB, jpeg, jsonOf, LOAD, openSite, pushed } from '../api/site.ts'
import { makeGoodLog } from '../damage/good-log.ts'
import { recordBytes } from '../damage/make-good.ts'
import { pack, remake, said, unpack, verify } from '../damage/record-kit.ts'
import { createMemoryPhoneStore } from '../kit/memory-phone-store.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'
import { createAuthority } from '../stamps/authority.ts'
import { NONCE, readStamp } from '../stamps/stamp-log.ts'

const MAP = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8')
const remark = (text: string) => ({ remark: { lang: 'en', text } })
const ownOf = (phone: Phone) => phone.store.transact((tx) => tx.list<OwnEntry>('own'))
const logOf = (phone: Phone) => phone.store.transact((tx) => tx.list<LogLeaf>('log'))
const leavesOf = (leaves: readonly LeafRow[]) => leaves.map((leaf) => leaf.kind)
const say = (phone: Phone, text: string) => phone.log(JOB, 'remark.made', remark(text))

type Row = { readonly who: string; readonly can: string; readonly test: () => Promise<void> }

/** The table of DEVELOPERS.md; an empty first cell is the row's above. */
const table = (): { who: string; can: string; shown: string }[] => {
  const [, part = ''] = MAP.split('## What is trusted')
  const rows: { who: string; can: string; shown: string }[] = []
  for (const line of part
    .split('\n## ')[0]!
    .split('\n')
    .filter((l) => l.startsWith('|'))
    .slice(2)) {
    const [who = '', can = '', shown = ''] = line
      .split('|')
      .slice(1)
      .map((cell) => cell.trim())
    rows.push({ who: who || rows.at(-1)!.who, can, shown })
  }
  return rows
}

const ROWS: readonly Row[] = [
  {
    who: 'a device’s thief',
    can: 'log under that device’s person until it is withdrawn',
    test: async () => {
      const { site, beto } = await openTwo()
      await say(beto.phone, 'by the thief')
      await syncRound(beto.phone)
      const { device } = beto.identity
      await site.owner.phone.log(site.company, 'device.withdrawn', { device })
      await syncRound(site.owner.phone)
      const before = await site.stores.log.thread(site.company, JOB)
      expect(before.at(-1)!.device).toBe(device)
      const withdrawn = (await site.stores.log.thread(site.company, site.company)).at(-1)!
      expect(before.at(-1)!.receivedAt).toBeLessThanOrEqual(withdrawn.receivedAt)
      const hash = await say(beto.phone, 'after it was withdrawn')
      await syncRound(beto.phone)
      expect(await site.stores.log.thread(site.company, JOB)).toEqual(before)
      const affairs = await site.stores.log.thread(site.company, site.company)
      expect(affairs.at(-1)!.kind).toBe('push.quarantined')
      expect(readUtf8(affairs.at(-1)!.bytes!)).toContain(hash)
    },
  },
  {
    who: 'whoever holds a shared phone',
    can: 'log crew’s entries under any name of the company',
    test: async () => {
      const site = await openSite({ seed: 31 })
      const beto = await site.hire('Beto', 'crew')
      const shared = await site.share()
      const { person } = beto.identity
      const entries = (['picked', 'own-device', 'pin'] as const).map((known) =>
        entryText(site, shared, { by: { known, person } }),
      )
      const { verdicts } = await pushed(shared, { entries })
      expect(verdicts.map((verdict) => verdict.is)).toEqual(['kept', 'refused', 'refused'])
      const answer = jsonOf(await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` }))
      expect(JSON.stringify(answer)).toContain('picked')
    },
  },
  {
    who: 'a person',
    can: 'log what is not true, or late',
    test: async () => {
      const { site, beto } = await openTwo()
      const happening = { job: JOB, kind: 'load.arrived', body: { load: LOAD }, source: 'tap' } as const
      const hash = await logEntry(beto.phone, { ...happening, occurredAt: '2026-04-20T07:00-05:00' })
      await syncRound(beto.phone)
      const answer = jsonOf(await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` }))
      const { history } = (answer as { model: { history: { entry: string; late: string }[] } }).model
      expect(history.find((one) => one.entry === hash)).toMatchObject({ late: 'yes' })
    },
  },
  {
    who: 'a copied or restored phone',
    can: 'sign a second history of that device',
    test: async () => {
      const site = await openSite({ seed: 6 })
      const boxed = site.unbox()
      const store = createMemoryPhoneStore()
      const seed = new Uint8Array(32).fill(9)
      const { chance, now, send } = site
      const phone = createPhone({ chance, now, wire: createWire(send), store, seed })
      await phone.join(await site.inviteCode(site.owner.identity.person))
      await say(phone, 'before it was copied')
      await syncRound(phone)
      const twinStore = createMemoryPhoneStore()
      twinStore.restore(store.snapshot())
      const twin = createPhone({ chance, now, wire: createWire(send), store: twinStore, seed })
      for (const one of [phone, twin]) await say(one, `by ${one === twin ? 'the copy' : 'the first'}`)
      for (const one of [phone, twin, phone, twin])
        expect(await syncRound(one)).toMatchObject({ is: 'synced' })
      const { device } = (await store.transact((tx) => getMeta(tx, 'identity')))!
      const heads = (await site.stores.log.heads(site.company)).filter((head) => head.device === device)
      expect(heads.filter((head) => head.disputed).length).toBe(1)
      expect(new Set(heads.map((head) => head.epoch))).toEqual(new Set([1, 2]))
      expect((await site.stores.log.thread(site.company, JOB)).length).toBe(3)
      expect(boxed.cookie()).toBe('')
    },
  },
  {
    who: 'the server',
    can: 'refuse, delay, or leave out an entry before it is acknowledged',
    test: async () => {
      const { site, beto } = await openTwo()
      const deaf: Phone = { ...beto.phone, wire: async () => NO_ANSWER }
      await say(deaf, 'nobody answers')
      expect(await syncRound(deaf)).toMatchObject({ is: 'stopped' })
      expect((await ownOf(deaf)).at(-1)!.state).toEqual({ is: 'waiting' })
      const refused = await beto.phone.log(JOB, 'customer.named', { name: 'Ada' } as never)
      await syncRound(beto.phone)
      expect((await ownOf(beto.phone)).at(-1)!.state).toMatchObject({ is: 'refused' })
      expect((await site.refusals()).map(({ hash }) => hash)).toEqual([refused])
    },
  },
  {
    who: 'the server',
    can: 'drop, change or re-order what was acknowledged',
    test: async () => {
      const { site, beto, commits, serverAt } = await openTwo()
      const fork = commits()
      await say(beto.phone, 'acknowledged, and then dropped')
      await syncRound(beto.phone)
      const liar = await serverAt(fork)
      const owner = liar.go(site.owner.phone)
      for (const text of ['one', 'two']) await say(owner, text)
      await syncRound(owner)
      await expectStopped(liar.go(beto.phone))
    },
  },
  {
    who: 'the server',
    can: 'show two people two histories',
    test: async () => {
      const { site, beto, commits, serverAt } = await openTwo()
      const other = await serverAt(commits())
      await say(other.go(beto.phone), 'what Beto is shown')
      await syncRound(other.go(beto.phone))
      await say(site.owner.phone, 'what Curt is shown')
      await syncRound(site.owner.phone)
      await say(beto.phone, 'and now to the same server as Curt')
      expect(await syncRound(beto.phone)).toMatchObject({ push: { refused: { code: 'log-contradicted' } } })
      expect((await site.stores.log.company(site.company))!.stopped).toMatchObject({
        code: 'log-contradicted',
      })
      expect((await evidenceOf(beto.phone)).length).toBeGreaterThan(0)
    },
  },
  {
    who: 'the server',
    can: 'put words in a phone’s mouth',
    test: async () => {
      const { site, beto } = await openTwo()
      const name = deviceOrigin(beto.identity.origin, beto.identity.device, 1)
      const empty = { size: 0, root: sha256(new Uint8Array()) }
      const clock = { at: '2026-04-21T07:00-05:00', boot: LOAD, mono: 1 }
      const head = writeHead({ origin: name, size: 9, root: sha256(toUtf8('words')), seen: empty, clock })
      const { device, log } = site.house.world.keysOf(beto.identity.origin)
      const phoneKey = { name, publicKey: await beto.phone.publicKey() }
      for (const key of [device, log]) {
        // Under the phone's own name and key id, but without its key.
        const note = await signNote(head, phoneKey, key.sign, sha256)
        const opened = await openNote(toUtf8(note), [phoneKey], { sha256, verify: verifySignature })
        expect(opened).toMatchObject({ ok: false, problem: { code: 'note-signature' } })
      }
    },
  },
  {
    who: 'the owner with the server’s keys',
    can: 'make the whole log anew under the same key',
    test: async () => {
      const { site, beto, commits, serverAt } = await openTwo()
      const slip = jsonOf(await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}/slip` }))
      const [, origin, size, root] = (slip as { slip: string }).slip.split('\n')
      // The log as it was before the job, and then another day.
      const anew = await serverAt(commits() - 1)
      const owner = anew.go(site.owner.phone)
      for (const text of ['another day', 'another pour', 'another truck']) await say(owner, text)
      await syncRound(owner)
      const { chance, now } = site
      const newcomer = createPhone({ chance, now, wire: anew.go(site.unbox().phone).wire })
      await newcomer.join(await site.inviteCode(beto.identity.person))
      // Without an older checkpoint there is nothing that tells.
      expect(await syncRound(newcomer)).toMatchObject({ is: 'synced' })
      expect((await logOf(newcomer)).length).toBeGreaterThan(Number(size))
      expect(await evidenceOf(newcomer)).toEqual([])
      const query = new URLSearchParams({ origin: origin!, size: size!, root: root! })
      const asked = await owner.wire({ method: 'GET', path: `/api/slip?${query}` })
      expect(asked.status).toBe(404)
      await expectStopped(anew.go(beto.phone))
      expect(recordEn.recNotShown3).toContain('the log’s own key was not used to make a new log')
    },
  },
  {
    who: 'the database’s thief',
    can: 'read all that was logged; not sign (keys are elsewhere)',
    test: async () => {
      const { site, beto, commits, serverAt } = await openTwo()
      const everything = await site.dump()
      const { log, device } = site.house.world.keysOf(beto.identity.origin)
      for (const key of [log, device]) {
        const seed = toHex(key.publicKey)
        // Public keys are there; of private ones there is nothing to be kept: they come from the master key each time.
        expect(everything.includes(seed)).toBe(false)
      }
      const backup = commits()
      await say(beto.phone, 'after the backup')
      await syncRound(beto.phone)
      const restored = await serverAt(backup)
      await syncRound(restored.go(beto.phone))
      expect((await restored.stores.log.company(site.company))!.stopped).toMatchObject({
        code: 'log-contradicted',
      })
      const key = readVerifierKey(beto.identity.logKey, sha256)
      expect(key.ok && toHex(key.value.publicKey)).toBe(toHex(log.publicKey))
    },
  },
  {
    who: 'the photo store',
    can: 'lose or change photos',
    test: async () => {
      const good = await makeGoodLog()
      const files = await unpack(await recordBytes(good))
      const [name] = [...files.keys()].filter((file) => file.startsWith('photos/'))
      const changed = new Map(files).set(name!, files.get(name!)!.with(50, 1))
      expect(said(await verify(await pack(changed))).join()).toContain(name)
      const { site, beto } = await openTwo()
      const bytes = jpeg(80)
      const photo = await keepPhoto(beto.phone, bytes, 'image/jpeg')
      const body = { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket' } as const
      await beto.phone.log(JOB, 'photo.taken', body, { evidence: [photo] })
      await syncRound(beto.phone)
      const served = await site.owner.phone.wire({ method: 'GET', path: `/api/photos/${photo}` })
      const signed = JSON.parse(readUtf8((await site.stores.log.thread(site.company, JOB))[1]!.bytes!)!)
      expect(toHex(sha256(served.body))).toBe(signed.body.photo)
      expect(toHex(sha256(served.body.with(0, 0)))).not.toBe(signed.body.photo)
    },
  },
  {
    who: 'the network',
    can: 'read nothing under HTTPS; delay, lose, repeat',
    test: async () => {
      const { site, beto } = await openTwo()
      // Each request arrives twice, and the first answer to each push is lost.
      let pushes = 0
      const rough: Phone = {
        ...beto.phone,
        wire: async (request) => {
          const first = await beto.phone.wire(request)
          const second = await beto.phone.wire(request)
          if (request.path !== '/api/push') return second
          expect(JSON.parse(readUtf8(second.body)!).verdicts).toEqual(
            JSON.parse(readUtf8(first.body)!).verdicts,
          )
          return ++pushes === 1 ? NO_ANSWER : second
        },
      }
      await say(rough, 'said once')
      await syncRound(rough)
      await syncRound(rough)
      expect(leavesOf(await site.stores.log.thread(site.company, JOB))).toEqual(['job.opened', 'remark.made'])
      await say(site.owner.phone, 'and this')
      await syncRound(site.owner.phone)
      // An answer that was changed on its way is not taken.
      const before = await logOf(rough)
      const liar: Phone = {
        ...beto.phone,
        wire: async (request) => {
          const answer = await beto.phone.wire(request)
          if (!request.path.startsWith('/api/pull')) return answer
          return { ...answer, body: toUtf8(readUtf8(answer.body)!.replace('and this', 'and that')) }
        },
      }
      expect(await syncRound(liar)).toMatchObject({ is: 'stopped', pull: { is: 'does-not-hold' } })
      expect(await logOf(rough)).toEqual(before)
      expect(await evidenceOf(rough)).toEqual([])
    },
  },
  {
    who: 'a time-stamp authority',
    can: 'stamp a false time, or what it was not asked for',
    test: async () => {
      const authority = createAuthority()
      try {
        const asked = new Uint8Array([1, 2, 3])
        const response = authority.reply(stampQuery(sha256(asked), NONCE))
        const read = (stamped: Uint8Array, nonce: Uint8Array) =>
          readStamp(response, { stamped, nonce, roots: [] })
        // It is taken at its word about the time, and about nothing else.
        expect((await read(asked, NONCE)).problems).toEqual([])
        expect((await read(toUtf8('other'), NONCE)).problems[0]?.code).toBe('stamp-differs')
        expect((await read(asked, NONCE.toReversed())).problems[0]?.code).toBe('stamp-differs')
      } finally {
        authority.remove()
      }
    },
  },
  {
    who: 'a record in a stranger’s hands',
    can: 'be altered',
    test: async () => {
      const good = await makeGoodLog()
      const record = await recordBytes(good)
      expect((await verify(record)).holds).toBe(true)
      const files = await unpack(record)
      for (const name of files.keys()) {
        const bytes = files.get(name)!
        const changed = new Map(files).set(name, bytes.with(bytes.length >> 1, bytes[bytes.length >> 1]! ^ 1))
        expect((await verify(await pack(changed))).holds, name).toBe(false)
      }
    },
  },
  {
    who: '`verify.html` in a record',
    can: 'be swapped for one that lies',
    test: async () => {
      const good = await makeGoodLog()
      const files = await unpack(await recordBytes(good))
      files.set('verify.html', toUtf8('<h1>This record holds</h1>'))
      expect(said(await verify(await pack(files)))).toContain('file-differs verify.html')
      // Whoever holds the log's key can list it anew; then the record's own figures name another one.
      expect(said(await verify(await remake(files, good.log)))).toEqual(['figures-differ record.json'])
    },
  },
]

/** The phone takes nothing more of that log, and keeps two notes that the log's key signed and that can't both be true. */
const expectStopped = async (phone: Phone): Promise<void> => {
  const before = await logOf(phone)
  expect(await syncRound(phone)).toMatchObject({ is: 'stopped', pull: { is: 'does-not-hold' } })
  expect(await logOf(phone)).toEqual(before)
  const evidence = await evidenceOf(phone)
  const both = evidence.find((one) => one.notes.length === 2)
  const identity = (await phone.store.transact((tx) => getMeta(tx, 'identity')))!
  const key = readVerifierKey(identity.logKey, sha256)
  expect(new Set(both?.notes).size).toBe(2)
  for (const note of both!.notes)
    expect(key.ok && (await openNote(toUtf8(note), [key.value], phone)).ok).toBe(true)
}

const plain = (text: string): string => text.replaceAll('’', "'")
let rows: ReturnType<typeof table>
beforeAll(() => {
  rows = table()
})

describe('[trust] the table of DEVELOPERS.md, row by row', () => {
  test('[trust] every row has a test, and every test a row', () => {
    const told = rows.map(({ who, can }) => plain(`${who}: ${can}`))
    expect(ROWS.map(({ who, can }) => plain(`${who}: ${can}`))).toEqual(told)
    for (const { shown } of rows) expect(shown).not.toBe('')
  })

  for (const row of ROWS) test(`[trust] ${row.who} can ${row.can}`, row.test)
})

test('[trust] a key that the log does not name opens nothing', async () => {
  const site = await openSite({ seed: 8 })
  const { note } = (await site.stores.log.newestCheckpoint(site.company))!
  const stranger = { name: site.owner.identity.origin, publicKey: readBase64('A'.repeat(43).concat('='))! }
  expect((await openNote(toUtf8(note), [stranger], site.owner.phone)).ok).toBe(false)
})
