import { expect, test } from 'vitest'
import type { Append } from '../../../db/log-store/log-store.ts'
import { checkpointOf, createPen, DEVICE, hashOf, headOf, hexOf, JOB, NOTHING, uuidOf } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { appendTo, newCompany } from './company.ts'

const PHOTO = hexOf('a photo')
const OTHER_JOB = uuidOf('another job')

export const stepSuite = (given: Given): void => {
  test('[steps] a transaction reads back what it wrote itself, as a later one does', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    await appendTo(stores.log, company, pen.append('a'))
    const rows: Append = {
      ...pen.append('b', { name: 'c', job: OTHER_JOB }),
      setAside: [{ device: DEVICE, entryHash: hexOf('late'), bytes: hashOf('late'), receivedAt: 9 }],
      asidePushes: [asidePush('one', 9, ['late', 'a']), asidePush('two', 9, ['b'])],
      blobs: [{ hash: PHOTO, bytes: 12345, type: 'image/jpeg', receivedAt: 10 }],
      mentions: [{ photo: PHOTO, job: JOB, kind: 'photo.taken' }],
    }
    const look = (tx: Parameters<Parameters<typeof stores.log.transact>[1]>[0]) =>
      Promise.all([
        tx.company(),
        tx
          .threads([JOB, OTHER_JOB, uuidOf('no such job')])
          .then((all) => all.sort((x, y) => x.count - y.count)),
        tx.threadLeaves(JOB, 1),
        tx
          .byIds([uuidOf('a'), uuidOf('c'), uuidOf('nobody')])
          .then((all) => all.sort((x, y) => x.position - y.position)),
        tx.byHashes([hexOf('b'), hexOf('b'), hexOf('nothing')]),
        tx.deviceLogs(DEVICE),
        tx.deviceLeaves(DEVICE, 1, 1, 10),
        tx.deviceLeaves(DEVICE, 1, 0, 2),
        tx.deviceLeaves(DEVICE, 2, 0, 10),
        tx.checkpointAt(1),
        tx.checkpointAt(2),
        tx.checkpointAt(3),
        tx.leafHashes(2),
        tx.setAside([hexOf('late'), hexOf('a')]),
        tx.asidePushes(DEVICE),
        tx.asidePushes(uuidOf('nobody')),
        tx.blobs([PHOTO, hexOf('another')]),
        tx.mentions([PHOTO]),
      ])
    const inside = await stores.log.transact(company, async (tx) => {
      await tx.append(rows)
      return look(tx)
    })
    expect(inside).toEqual([
      { company, origin: `screedbook/${company}`, frontier: pen.state().frontier, stopped: undefined },
      [pen.state().threads[OTHER_JOB], pen.state().threads[JOB]],
      [rows.leaves[0]],
      [
        { id: uuidOf('a'), entryHash: hexOf('a'), position: 0 },
        { id: uuidOf('c'), entryHash: hexOf('c'), position: 2 },
      ],
      [{ entryHash: hexOf('b'), position: 1, job: JOB }],
      [{ device: DEVICE, epoch: 1, frontier: pen.state().device }],
      [hexOf('b'), hexOf('c')],
      [hexOf('a'), hexOf('b')],
      [],
      createPenAt(1),
      undefined,
      checkpointOf(pen.state().frontier),
      [hashOf('leaf a'), hashOf('leaf b')],
      rows.setAside,
      rows.asidePushes,
      [],
      rows.blobs,
      rows.mentions,
    ])
    expect(await stores.log.transact(company, look)).toEqual(inside)
  })

  test('[steps] nothing asked for is nothing found', async () => {
    const { stores } = given()
    const { company } = await newCompany(stores.log)
    const found = await stores.log.transact(company, (tx) =>
      Promise.all([
        tx.threads([]),
        tx.byIds([]),
        tx.byHashes([]),
        tx.setAside([]),
        tx.asidePushes(DEVICE),
        tx.blobs([]),
        tx.mentions([]),
      ]),
    )
    expect(found).toEqual([[], [], [], [], [], [], []])
  })

  test('[isolation] two companies with the same ids, hashes and photos know nothing of each other', async () => {
    const { stores } = given()
    const one = await newCompany(stores.log)
    const two = await newCompany(stores.log)
    const blob = { hash: PHOTO, bytes: 1, type: 'image/jpeg', receivedAt: 1 }
    const extras = {
      blobs: [blob],
      mentions: [{ photo: PHOTO, job: JOB, kind: 'photo.taken' as const }],
      heads: [headOf(2, 'head')],
      setAside: [{ device: DEVICE, entryHash: PHOTO, bytes: hashOf('x'), receivedAt: 1 }],
      asidePushes: [asidePush('one', 1, ['x'])],
    }
    await appendTo(stores.log, one.company, { ...one.pen.append('a', 'b'), ...extras })

    expect(await stores.log.page(two.company, 0, 10)).toEqual({ leaves: [], checkpoint: undefined })
    expect(await stores.log.thread(two.company, JOB)).toEqual([])
    expect(await stores.log.heads(two.company)).toEqual([])
    expect(await stores.log.blob(two.company, PHOTO)).toBeUndefined()
    expect(await stores.log.deviceIndexOf(two.company, [hexOf('a')])).toEqual([])
    const found = await stores.log.transact(two.company, (tx) =>
      Promise.all([
        tx.byIds([uuidOf('a')]),
        tx.byHashes([hexOf('a')]),
        tx.threads([JOB]),
        tx.threadLeaves(JOB, 0),
        tx.deviceLogs(DEVICE),
        tx.deviceLeaves(DEVICE, 1, 0, 9),
        tx.blobs([PHOTO]),
        tx.mentions([PHOTO]),
        tx.leafHashes(9),
        tx.setAside([PHOTO]),
        tx.asidePushes(DEVICE),
      ]),
    )
    expect(found).toEqual([[], [], [], [], [], [], [], [], [], [], []])
    expect(await stores.log.setAside(two.company, DEVICE)).toEqual([])

    await appendTo(stores.log, two.company, { ...two.pen.append('a'), ...extras })
    expect((await stores.log.page(one.company, 0, 10)).leaves).toHaveLength(2)
    expect((await stores.log.page(two.company, 0, 10)).leaves).toHaveLength(1)
  })

  test('[photos] a blob, a mention and a set-aside entry that come again are kept once, as they were first', async () => {
    const { stores } = given()
    const { company } = await newCompany(stores.log)
    const frontier = { size: 0, peaks: [] }
    const rows = (bytes: number) => ({
      ...NOTHING,
      frontier,
      blobs: [{ hash: PHOTO, bytes, type: 'image/jpeg', receivedAt: bytes }],
      mentions: [
        { photo: PHOTO, job: JOB, kind: 'photo.taken' as const },
        { photo: PHOTO, job: JOB, kind: 'photo.received' as const },
      ],
      setAside: [{ device: DEVICE, entryHash: PHOTO, bytes: hashOf('x'), receivedAt: bytes }],
      asidePushes: [asidePush('the same', bytes, ['x'])],
    })
    await appendTo(stores.log, company, rows(1))
    await appendTo(stores.log, company, rows(2))
    expect(await stores.log.blob(company, PHOTO)).toEqual({
      hash: PHOTO,
      bytes: 1,
      type: 'image/jpeg',
      receivedAt: 1,
    })
    expect(await stores.log.setAside(company, DEVICE)).toEqual([
      { device: DEVICE, entryHash: PHOTO, bytes: hashOf('x'), receivedAt: 1 },
    ])
    const pushes = await stores.log.transact(company, (tx) => tx.asidePushes(DEVICE))
    expect(pushes).toEqual([asidePush('the same', 1, ['x'])])
    const mentions = await stores.log.transact(company, (tx) => tx.mentions([PHOTO, PHOTO]))
    expect(mentions.map((row) => row.kind).sort()).toEqual(['photo.received', 'photo.taken'])
  })

  test('[set aside] what a device sent is told by its receipt, and nothing of another device with it', async () => {
    const { stores, elsewhere } = given()
    const { company } = await newCompany(stores.log)
    const row = (name: string, receivedAt: number, device = DEVICE) => ({
      device,
      entryHash: hexOf(name),
      bytes: hashOf(name),
      receivedAt,
    })
    const rows = [row('c', 7), row('a', 9), row('b', 8), row('d', 8, uuidOf('another device'))]
    await appendTo(stores.log, company, {
      ...NOTHING,
      frontier: { size: 0, peaks: [] },
      setAside: rows,
      asidePushes: [asidePush('later', 9, ['a']), asidePush('earlier', 7, ['c', 'b'])],
    })
    expect((await elsewhere.log.setAside(company, DEVICE)).map((r) => r.entryHash)).toEqual(
      ['c', 'b', 'a'].map(hexOf),
    )
    const pushes = await stores.log.transact(company, (tx) => tx.asidePushes(DEVICE))
    expect(pushes.map((push) => push.note)).toEqual(['earlier', 'later'])
    expect(await stores.log.setAside(company, 'no uuid')).toEqual([])
  })

  test('[bytes] what was given and what is handed out share no memory with what is kept', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const rows = pen.append('a')
    await appendTo(stores.log, company, rows)
    rows.leaves[0]!.bytes!.fill(0)
    rows.leaves[0]!.leafHash.fill(0)
    const first = await stores.log.page(company, 0, 1)
    expect(first.leaves[0]!.bytes).toEqual(new TextEncoder().encode('a'))
    first.leaves[0]!.bytes!.fill(1)
    first.checkpoint!.root.fill(1)
    ;(await stores.log.leafHashes(company, 1))[0]!.fill(1)
    const again = await stores.log.page(company, 0, 1)
    expect(again.leaves[0]!.bytes).toEqual(new TextEncoder().encode('a'))
    expect(again.leaves[0]!.leafHash).toEqual(hashOf('leaf a'))
    expect(again.checkpoint).toEqual(createPenAt(1))
    // A window on a larger buffer would give its neighbours' bytes to whoever takes `.buffer`.
    expect(again.leaves[0]!.bytes!.buffer.byteLength).toBe(1)
  })
}

const asidePush = (note: string, receivedAt: number, names: readonly string[]) => ({
  device: DEVICE,
  epoch: 1,
  from: 0,
  hashes: names.map(hexOf),
  size: names.length,
  root: hashOf(note),
  note,
  receivedAt,
})

/** The checkpoint after `a`, at size 1. */
const createPenAt = (size: 1) => {
  const pen = createPen()
  pen.append(...['a'].slice(0, size))
  return checkpointOf(pen.state().frontier)
}
