import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { createPen, JOB, NOTHING } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { aMoment, appendTo, gate, newCompany } from './company.ts'

export const transactSuite = (given: Given): void => {
  test('[alone] of two transactions on one company the second sees all that the first wrote', async () => {
    const { stores, elsewhere } = given()
    const { company, pen } = await newCompany(stores.log)
    const { open, opened } = gate()
    const order: string[] = []
    const first = stores.log.transact(company, async (tx) => {
      order.push('first begins')
      await tx.append(pen.append('a', 'b'))
      await opened
      order.push('first ends')
    })
    await aMoment()
    const second = elsewhere.log.transact(company, async (tx) => {
      order.push('second begins')
      return [(await tx.company())?.frontier.size, (await tx.threads([JOB]))[0]?.count]
    })
    await aMoment()
    open()
    await first
    expect(await second).toEqual([2, 2])
    expect(order).toEqual(['first begins', 'first ends', 'second begins'])
  })

  test('[alone] twenty transactions that each read the size and add one leaf lose none', async () => {
    const { stores, elsewhere } = given()
    const { company } = await newCompany(stores.log)
    let pen = createPen()
    const add = (i: number) =>
      (i % 2 ? stores : elsewhere).log.transact(company, async (tx) => {
        const before = await tx.company()
        expect(before?.frontier.size).toBe(pen.state().frontier.size)
        const next = createPen(pen.state())
        await tx.append(next.append(`entry ${i}`))
        pen = next
      })
    await Promise.all(Array.from({ length: 20 }, (_, i) => add(i)))
    expect((await stores.log.company(company))?.frontier.size).toBe(20)
  })

  test('[alone] a company that is busy stops no other, however many wait for it', async () => {
    const { stores } = given()
    const busy = await newCompany(stores.log)
    const other = await newCompany(stores.log)
    const { open, opened } = gate()
    const waiting = Array.from({ length: 30 }, () => stores.log.transact(busy.company, () => opened))
    await appendTo(stores.log, other.company, other.pen.append('goes on'))
    expect((await stores.log.company(other.company))?.frontier.size).toBe(1)
    open()
    await Promise.all(waiting)
  })

  test('[alone] of twenty founders of one company one founds it and the others find it there', async () => {
    const { stores, elsewhere } = given()
    const company = randomUUID()
    const found = (i: number) =>
      (i % 2 ? stores : elsewhere).log.transact(company, async (tx) => {
        if (await tx.company()) return false
        await tx.found({ origin: `screedbook/${company}` })
        return true
      })
    const founded = await Promise.all(Array.from({ length: 20 }, (_, i) => found(i)))
    expect(founded.filter(Boolean)).toHaveLength(1)
  })

  test('[all or nothing] a function that throws after its writes leaves nothing', async () => {
    const { stores, elsewhere } = given()
    const { company, pen } = await newCompany(stores.log)
    const rows = pen.append('a')
    const failing = stores.log.transact(company, async (tx) => {
      await tx.append({
        ...rows,
        blobs: [{ hash: rows.leaves[0]!.entryHash, bytes: 1, type: 'image/jpeg', receivedAt: 1 }],
      })
      throw new Error('a bug')
    })
    await expect(failing).rejects.toThrow('a bug')
    for (const { log } of [stores, elsewhere]) {
      expect((await log.company(company))?.frontier.size).toBe(0)
      expect(await log.page(company, 0, 10)).toEqual({ leaves: [], checkpoint: undefined })
      expect(await log.blob(company, rows.leaves[0]!.entryHash)).toBeUndefined()
    }
    await appendTo(stores.log, company, rows)
    expect((await stores.log.company(company))?.frontier.size).toBe(1)
  })

  test('[all or nothing] a founding that fails later leaves no company', async () => {
    const { stores } = given()
    const company = randomUUID()
    const failing = stores.log.transact(company, async (tx) => {
      await tx.found({ origin: `screedbook/${company}` })
      throw new Error('a bug')
    })
    await expect(failing).rejects.toThrow('a bug')
    expect(await stores.log.company(company)).toBeUndefined()
    expect(await stores.log.companies()).not.toContain(company)
  })

  test('[all or nothing] a step that failed fails the transaction, even where the function caught it', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const rows = pen.append('a')
    const failing = stores.log.transact(company, async (tx) => {
      await tx.append(rows)
      await tx.append({ ...createPen(pen.state()).append('b'), leaves: rows.leaves }).catch(() => {})
    })
    await expect(failing).rejects.toThrow(/append/)
    expect((await stores.log.company(company))?.frontier.size).toBe(0)
  })

  test('[all or nothing] a step after the end fails and writes nothing', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const kept = await stores.log.transact(company, async (tx) => tx)
    await expect(kept.append(pen.append('late'))).rejects.toThrow('ended')
    expect((await stores.log.company(company))?.frontier.size).toBe(0)
  })

  test('[whole] a reader sees nothing of a transaction before its commit, and all of it after', async () => {
    const { stores, elsewhere } = given()
    const { company, pen } = await newCompany(stores.log)
    const rows = pen.append('a', 'b', 'c')
    const { open, opened } = gate()
    const written = gate()
    const running = stores.log.transact(company, async (tx) => {
      await tx.append(rows)
      expect((await tx.company())?.frontier.size).toBe(3)
      written.open()
      await opened
    })
    await written.opened
    for (const { log } of [stores, elsewhere]) {
      expect((await log.company(company))?.frontier.size).toBe(0)
      expect(await log.newestCheckpoint(company)).toBeUndefined()
      expect(await log.threads(company)).toEqual([])
    }
    open()
    await running
    for (const { log } of [stores, elsewhere]) {
      expect((await log.page(company, 0, 10)).leaves).toHaveLength(3)
      expect((await log.newestCheckpoint(company))?.size).toBe(3)
    }
  })

  test('[result] a transaction gives what its function gave, also where nothing was written', async () => {
    const { stores } = given()
    const { company } = await newCompany(stores.log)
    expect(await stores.log.transact(company, async () => ({ n: 7 }))).toEqual({ n: 7 })
    expect(await stores.log.transact(randomUUID(), (tx) => tx.company())).toBeUndefined()
  })

  test('[stopped] a stop is kept with its evidence, and later appends leave it standing', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const stopped = { code: 'log-behind', evidence: 'a note\n\n— origin AAAA\n' }
    await appendTo(stores.log, company, { ...NOTHING, frontier: { size: 0, peaks: [] }, stopped })
    await appendTo(stores.log, company, pen.append('a'))
    expect(await stores.log.company(company)).toEqual({
      company,
      origin: `screedbook/${company}`,
      frontier: pen.state().frontier,
      stopped,
    })
  })
}
