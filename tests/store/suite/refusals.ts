import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import type { Append } from '../../../db/log-store/log-store.ts'
import { createPen, DEVICE, type PenState } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { appendTo, newCompany } from './company.ts'

/** Bugs that a store must not take: each is built on a log that holds `a` and `b`. */
const BUGS: Readonly<Record<string, (after: PenState) => Append>> = {
  'an entry hash that the log has': (after) => {
    const rows = createPen(after).append('c')
    const [leaf] = createPen().append('a').leaves
    return { ...rows, leaves: [{ ...rows.leaves[0]!, entryHash: leaf!.entryHash }] }
  },
  'an id that the log has': (after) => {
    const rows = createPen(after).append('c')
    const [leaf] = createPen().append('a').leaves
    return { ...rows, leaves: [{ ...rows.leaves[0]!, id: leaf!.id }] }
  },
  'positions that the log has': () => createPen().append('c'),
  'a position left out': (after) => {
    const rows = createPen(after).append('c')
    return { ...rows, leaves: [{ ...rows.leaves[0]!, position: 3 }] }
  },
  'leaves without a checkpoint': (after) => ({ ...createPen(after).append('c'), checkpoint: undefined }),
  'a checkpoint of another size': (after) => {
    const rows = createPen(after).append('c')
    return { ...rows, checkpoint: { ...rows.checkpoint!, size: 4 } }
  },
  'a frontier that its leaves do not lead to': (after) => ({
    ...createPen(after).append('c'),
    frontier: after.frontier,
  }),
  'a thread that goes back': (after) => {
    const rows = createPen(after).append('c')
    const leaves = [{ ...rows.leaves[0]!, count: 1 }]
    return { ...rows, leaves, threads: [{ ...rows.threads[0]!, count: 1 }] }
  },
  'a device log that leaves a gap': (after) => {
    const rows = createPen({ ...after, device: createPen().append('a', 'b', 'x').frontier }).append('c')
    return { ...rows, deviceLeaves: [{ ...rows.deviceLeaves[0]!, index: 3 }] }
  },
  'a device log that goes back': (after) =>
    createPen({ ...after, device: { size: 0, peaks: [] } }).append('c'),
  'device leaves without their log': (after) => ({ ...createPen(after).append('c'), deviceLogs: [] }),
}

export const refusalSuite = (given: Given): void => {
  for (const [bug, make] of Object.entries(BUGS)) {
    test(`[refused] ${bug}: the transaction throws and leaves all as it was`, async () => {
      const { stores } = given()
      const { company, pen } = await newCompany(stores.log)
      await appendTo(stores.log, company, pen.append('a', 'b'))
      await expect(appendTo(stores.log, company, make(pen.state()))).rejects.toThrow()
      expect((await stores.log.company(company))?.frontier).toEqual(pen.state().frontier)
      expect((await stores.log.page(company, 0, 10)).leaves).toHaveLength(2)
      expect(await stores.log.deviceLeaves(company, DEVICE, 1, 10)).toHaveLength(2)
    })
  }

  test('[refused] a founding of a company that is there, or with an origin that is taken', async () => {
    const { stores } = given()
    const { company } = await newCompany(stores.log)
    const again = stores.log.transact(company, (tx) => tx.found({ origin: 'screedbook/other' }))
    await expect(again).rejects.toThrow()
    const other = stores.log.transact(randomUUID(), (tx) => tx.found({ origin: `screedbook/${company}` }))
    await expect(other).rejects.toThrow()
  })

  test('[refused] an append to a company that nobody founded', async () => {
    const { stores } = given()
    await expect(appendTo(stores.log, randomUUID(), createPen().append('a'))).rejects.toThrow(
      'no such company',
    )
  })

  test('[refused] a company whose id is no UUID can neither be founded nor found', async () => {
    const { stores } = given()
    for (const name of ['acme', `${randomUUID()}x`, randomUUID().toUpperCase()]) {
      await expect(stores.log.transact(name, (tx) => tx.found({ origin: name }))).rejects.toThrow('UUID')
      expect(await stores.log.company(name)).toBeUndefined()
      expect(await stores.log.page(name, 0, 10)).toEqual({ leaves: [], checkpoint: undefined })
      expect(await stores.log.newestCheckpoint(name)).toBeUndefined()
      expect(await stores.log.threads(name)).toEqual([])
      expect(await stores.log.heads(name)).toEqual([])
      expect(await stores.log.thread(randomUUID(), name)).toEqual([])
      expect(await stores.log.deviceLeaves(randomUUID(), name, 1, 10)).toEqual([])
      expect(await stores.views.view(name, name, 'job')).toBeUndefined()
    }
  })
}
