import { expect, test } from 'vitest'
import { createPen, DEVICE, headOf, hexOf, JOB, NOTHING, uuidOf } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { appendTo, newCompany } from './company.ts'

const OTHER_JOB = uuidOf('another job')

/** Checkpoints at 2, 5, 6 and 10. */
const written = async (given: Given) => {
  const { stores } = given()
  const { company, pen } = await newCompany(stores.log)
  for (const names of [['a', 'b'], ['c', 'd', 'e'], ['f'], ['g', 'h', 'i', 'j']]) {
    await appendTo(stores.log, company, pen.append(...names))
  }
  return { log: stores.log, company, pen }
}

export const readSuite = (given: Given): void => {
  test('[pages] every page ends at a signed checkpoint that covers exactly its leaves', async () => {
    const { log, company } = await written(given)
    const ends: Record<string, number> = {}
    for (let from = 0; from <= 11; from++) {
      for (const limit of [0, 1, 3, 4, 100]) {
        const { leaves, checkpoint } = await log.page(company, from, limit)
        expect(leaves.map((leaf) => leaf.position)).toEqual(leaves.map((_, i) => from + i))
        if (from < 10) expect(from + leaves.length).toBe(checkpoint?.size)
        else expect([leaves, checkpoint?.size]).toEqual([[], 10])
        ends[`${from}+${limit}`] = checkpoint!.size
      }
    }
    // The last at or below from + limit …
    expect([ends['0+3'], ends['0+100'], ends['1+4'], ends['2+4'], ends['5+1']]).toEqual([2, 10, 5, 6, 6])
    // … and where there is none, the first beyond `from`.
    expect([ends['0+1'], ends['2+1'], ends['3+0'], ends['6+3']]).toEqual([2, 5, 5, 10])
  })

  test('[pages] pages one after the other give the whole log once, while others write', async () => {
    const { log, company, pen } = await written(given)
    const seen: string[] = []
    const writing = (async () => {
      for (let i = 0; i < 10; i++) await appendTo(log, company, pen.append(`more ${i}`, `and ${i}`))
    })()
    for (let turns = 0; seen.length < 30 && turns < 10_000; turns++) {
      const { leaves, checkpoint } = await log.page(company, seen.length, 7)
      expect(checkpoint?.size).toBe(seen.length + leaves.length)
      seen.push(...leaves.map((leaf) => leaf.id))
    }
    await writing
    expect(new Set(seen).size).toBe(30)
  })

  test('[pages] a leaf whose bytes nobody holds keeps its place and hash', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const rows = pen.append('a', 'b')
    const bare = { ...rows.leaves[0]!, bytes: undefined }
    await appendTo(stores.log, company, { ...rows, leaves: [bare, rows.leaves[1]!] })
    expect((await stores.log.page(company, 0, 9)).leaves).toEqual([bare, rows.leaves[1]])
  })

  test('[checkpoints] each is found by its size, and the newest without it', async () => {
    const { log, company } = await written(given)
    const sizes = await Promise.all([0, 1, 2, 5, 10, 11].map((size) => log.checkpointAt(company, size)))
    expect(sizes.map((found) => found?.size)).toEqual([undefined, undefined, 2, 5, 10, undefined])
    expect((await log.newestCheckpoint(company))?.note).toBe('checkpoint at 10\n')
  })

  test('[threads] a thread is read from first to last, up to a size of the log, and the newest comes first', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    await appendTo(stores.log, company, pen.append('a', { name: 'b', job: OTHER_JOB }, 'c'))
    await appendTo(stores.log, company, pen.append({ name: 'd', job: OTHER_JOB }))
    const names = async (upTo?: number) =>
      (await stores.log.thread(company, OTHER_JOB, upTo)).map((leaf) => leaf.id)
    expect(await names()).toEqual([uuidOf('b'), uuidOf('d')])
    expect(await names(3)).toEqual([uuidOf('b')])
    expect(await names(1)).toEqual([])
    expect(await stores.log.threads(company)).toEqual([
      { job: OTHER_JOB, count: 2, lastPosition: 3 },
      { job: JOB, count: 2, lastPosition: 2 },
    ])
  })

  test('[hashes] leaf hashes and device leaves come in order, up to a size', async () => {
    const { log, company } = await written(given)
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j']
    expect((await log.leafHashes(company, 4)).length).toBe(4)
    expect(await log.deviceLeaves(company, DEVICE, 1, 3)).toEqual(names.slice(0, 3).map(hexOf))
    expect(await log.deviceLeaves(company, DEVICE, 1, 99)).toEqual(names.map(hexOf))
    expect(await log.deviceLeaves(company, DEVICE, 2, 99)).toEqual([])
    expect(await log.deviceIndexOf(company, [hexOf('d'), hexOf('nobody')])).toEqual([
      { device: DEVICE, epoch: 1, index: 3, entryHash: hexOf('d') },
    ])
  })

  test('[epochs] a device has one log an epoch, each with its own indexes', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    await appendTo(stores.log, company, pen.append('a'))
    const second = createPen({ ...pen.state(), device: { size: 0, peaks: [] } }).append('b')
    const log = { ...second.deviceLogs[0]!, epoch: 2 }
    const leaf = { ...second.deviceLeaves[0]!, epoch: 2 }
    await appendTo(stores.log, company, { ...second, deviceLogs: [log], deviceLeaves: [leaf] })
    const logs = await stores.log.transact(company, (tx) => tx.deviceLogs(DEVICE))
    expect(logs.map(({ epoch, frontier }) => [epoch, frontier.size])).toEqual([
      [1, 1],
      [2, 1],
    ])
    expect(await stores.log.deviceLeaves(company, DEVICE, 2, 9)).toEqual([hexOf('b')])
  })

  test('[heads] two notes of one size are two heads, and the same note again is none', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const first = headOf(1, 'first\n')
    const other = headOf(1, 'other\n', { disputed: true, receivedAt: first.receivedAt + 1 })
    const elsewhere = headOf(1, 'first\n', { device: '00000000-0000-7000-8000-000000000000' })
    await appendTo(stores.log, company, { ...pen.append('a'), heads: [first] })
    const frontier = pen.state().frontier
    await appendTo(stores.log, company, { ...NOTHING, frontier, heads: [other, elsewhere] })
    await appendTo(stores.log, company, { ...NOTHING, frontier, heads: [{ ...first, receivedAt: 1 }] })
    expect(await stores.log.heads(company)).toEqual([elsewhere, first, other])
  })

  test('[companies] those that were founded are listed', async () => {
    const { stores, elsewhere } = given()
    const one = await newCompany(stores.log)
    const two = await newCompany(stores.log)
    const listed = await elsewhere.log.companies()
    expect(listed).toEqual(expect.arrayContaining([one.company, two.company]))
  })
}
