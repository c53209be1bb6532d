import { expect, test } from 'vitest'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import { openNote, readVerifierKey } from '../../api/domain/log/note.ts'
import { sha256 } from '../../api/server/senses.ts'
import type { OwnEntry } from '../../web/sync/kept.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import type { WireRequest } from '../../web/sync/wire.ts'
import { evidenceOf, NO_ANSWER, openTwo } from '../api/second-server.ts'
import { JOB, jpeg, LOAD, type Person } from '../api/site.ts'
import type { Phone } from '../kit/phone.ts'
import { logNewer } from './entries.ts'

/** What the simulator found in the product, each as a case of its own, named after what went wrong. */

const remark = (text: string) => ({ remark: { lang: 'en', text } })

test('[L48] a phone that only reads, and is shown another history, proves it and keeps both signed notes', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const fork = commits()
  await beto.phone.log(JOB, 'remark.made', remark('north edge is low'))
  await syncRound(beto.phone)
  const liar = await serverAt(fork)
  const owner = liar.go(site.owner.phone)
  // The other history grows past the one that Beto has verified, so that no two checkpoints have one size.
  for (const text of ['one', 'two', 'three']) await owner.log(JOB, 'remark.made', remark(text))
  await syncRound(owner)
  const phone = liar.go(beto.phone)
  // A liar does not say so when it is shown what it signed elsewhere.
  const deaf: Phone = {
    ...phone,
    wire: (request: WireRequest) =>
      request.path === '/api/push' ? Promise.resolve(NO_ANSWER) : phone.wire(request),
  }
  expect(await syncRound(deaf)).toMatchObject({
    pull: { is: 'does-not-hold', code: 'checkpoint-contradicts' },
  })
  const [evidence, ...more] = await evidenceOf(deaf)
  expect(more).toEqual([])
  expect(evidence).toMatchObject({ code: 'checkpoint-contradicts' })
  expect(evidence!.notes.length).toBe(2)
  const key = readVerifierKey(beto.identity.logKey, sha256)
  for (const note of evidence!.notes)
    expect(key.ok && (await openNote(toUtf8(note), [key.value], phone)).ok).toBe(true)
  await syncRound(deaf)
  expect((await evidenceOf(deaf)).length).toBe(1)
})

test('[L49] a phone with nothing to push shows a restored server the later checkpoint that it has seen', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const backup = commits()
  await beto.phone.log(JOB, 'remark.made', remark('north edge is low'))
  await syncRound(beto.phone)
  const restored = await serverAt(backup)
  const phone = restored.go(beto.phone)
  expect(await syncRound(phone)).toMatchObject({
    is: 'stopped',
    push: { refused: { code: 'log-contradicted' } },
  })
  expect((await restored.stores.log.company(site.company))!.stopped).toMatchObject({
    code: 'log-contradicted',
  })
  expect(await evidenceOf(phone)).toMatchObject([{ code: 'log-contradicted' }])
})

test('[photos] a photo that a stopped log does not take is a reason to say that the sync stopped', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const backup = commits()
  await site.owner.phone.log(JOB, 'remark.made', remark('north edge is low'))
  await syncRound(site.owner.phone)
  const restored = await serverAt(backup)
  await syncRound(restored.go(site.owner.phone))
  await keepPhoto(beto.phone, jpeg(100), 'image/jpeg')
  expect(await syncRound(restored.go(beto.phone))).toMatchObject({
    is: 'stopped',
    push: { is: 'nothing-to-push' },
    photos: { sent: 0, left: 1, stopped: { code: 'log-stopped' } },
  })
})

test('[L32] a photo that the server had, and lost when it was put back, is sent again', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const bytes = jpeg(100)
  const photo = await keepPhoto(beto.phone, bytes, 'image/jpeg')
  const body = { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket' } as const
  await beto.phone.log(JOB, 'photo.taken', body, { evidence: [photo] })
  await syncRound(withoutPull(beto.phone))
  // The entry was in the backup, and the photo came after it; no phone has seen the log say that it arrived.
  const restored = await serverAt(commits() - 1)
  const phone = restored.go(beto.phone)
  await syncRound(phone)
  await syncRound(phone)
  expect(await restored.stores.log.blob(site.company, photo)).toBeDefined()
  const thread = await restored.stores.log.thread(site.company, JOB)
  expect(thread.map((leaf) => leaf.kind)).toEqual(['job.opened', 'photo.taken', 'photo.received'])
})
/** A phone whose way is lost whenever it asks for the log. */
const withoutPull = (phone: Phone): Phone => ({
  ...phone,
  wire: (request: WireRequest) =>
    request.path.startsWith('/api/pull') ? Promise.resolve(NOTHING_NEW) : phone.wire(request),
})
const NOTHING_NEW = {
  status: 200,
  headers: new Headers(),
  body: toUtf8(JSON.stringify({ from: 0, leaves: [], checkpoint: null, more: false, serverTime: 0 })),
}

test('[L46] what a server acknowledged, and lost when it was put back, is sent again by a phone with nothing new', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const backup = commits()
  const hash = await beto.phone.log(JOB, 'remark.made', remark('north edge is low'))
  await syncRound(withoutPull(beto.phone))
  const restored = await serverAt(backup)
  await syncRound(restored.go(beto.phone))
  const thread = await restored.stores.log.thread(site.company, JOB)
  expect(thread.map((leaf) => leaf.entryHash)).toContain(hash)
  expect(await evidenceOf(beto.phone)).toEqual([])
})

test('[L48] what was acknowledged at a place where the log holds another entry is evidence, and is sent again', async () => {
  const { site, beto, commits, serverAt } = await openTwo()
  const backup = commits()
  const hash = await beto.phone.log(JOB, 'remark.made', remark('north edge is low'))
  await syncRound(withoutPull(beto.phone))
  const restored = await serverAt(backup)
  const owner = restored.go(site.owner.phone)
  for (const text of ['one', 'two']) await owner.log(JOB, 'remark.made', remark(text))
  await syncRound(owner)
  const phone = restored.go(beto.phone)
  expect(await syncRound(phone)).toMatchObject({ is: 'stopped', pull: { code: 'own-entry-missing' } })
  expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  const thread = await restored.stores.log.thread(site.company, JOB)
  expect(thread.map((leaf) => leaf.entryHash)).toContain(hash)
  expect(await evidenceOf(phone)).toMatchObject([{ code: 'own-entry-missing' }])
})

test('[L45] what was kept before a device was withdrawn is answered so again, and not set aside', async () => {
  const { site, beto } = await openTwo()
  await beto.phone.log(JOB, 'remark.made', remark('north edge is low'))
  let lost = true
  const phone: Phone = {
    ...beto.phone,
    wire: async (request: WireRequest) => {
      const answer = await beto.phone.wire(request)
      return request.path === '/api/push' && lost ? NO_ANSWER : answer
    },
  }
  await syncRound(phone)
  lost = false
  const { device } = beto.identity
  await site.owner.phone.log(site.company, 'device.withdrawn', { device })
  await syncRound(site.owner.phone)
  await beto.phone.log(JOB, 'remark.made', remark('after it was withdrawn'))
  await syncRound(phone)
  const own = await phone.store.transact((tx) => tx.list<OwnEntry>('own'))
  expect(own.map((entry) => entry.state.is)).toEqual(['kept', 'kept', 'set-aside'])
})

test('[L9] entries that wait for a newer server are not sent again at each sync', async () => {
  const { beto } = await openTwo()
  const pushes = await countingPushes(beto)
  await logNewer(pushes.phone, JOB)
  await syncRound(pushes.phone)
  await syncRound(pushes.phone)
  await pushes.phone.log(JOB, 'load.arrived', { load: LOAD })
  await syncRound(pushes.phone)
  for (let i = 0; i < 5; i++) await syncRound(pushes.phone)
  // Once when it was made, once to see whether the server was updated meanwhile, once for what came after it.
  expect(pushes.sizes()).toEqual([1, 1, 1])
  const later: Phone = { ...pushes.phone, now: () => beto.phone.now() + 11 * 60_000 }
  await syncRound(later)
  expect(pushes.sizes()).toEqual([1, 1, 1, 2])
})
const countingPushes = async (person: Person) => {
  const sizes: number[] = []
  const phone: Phone = {
    ...person.phone,
    wire: (request: WireRequest) => {
      if (request.path === '/api/push') sizes.push(JSON.parse(String(request.body)).entries.length)
      return person.phone.wire(request)
    },
  }
  return { phone, sizes: () => sizes }
}
