import { expect, test, vi } from 'vitest'
import type { Given } from '../store-suite.ts'
import { aMoment, appendTo, newCompany } from './company.ts'

export const newsSuite = (given: Given): void => {
  test('[news] a commit is told in this process and in another, once it can be read', async () => {
    const { stores, elsewhere } = given()
    const { company, pen } = await newCompany(stores.log)
    const sizes: (number | undefined)[] = []
    const stops = await Promise.all(
      [stores, elsewhere].map(({ log }) =>
        log.onCommit(async (told) => {
          if (told === company) sizes.push((await log.company(company))?.frontier.size)
        }),
      ),
    )
    await appendTo(stores.log, company, pen.append('a'))
    await vi.waitFor(() => expect(sizes).toEqual([1, 1]))
    for (const stop of stops) await stop()
  })

  test('[news] nothing is told of a transaction that failed or only read, nor after the listener stopped', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    const told: string[] = []
    await aMoment()
    const stop = await stores.log.onCommit((name) => void told.push(name))
    await stores.log.transact(company, (tx) => tx.company())
    const rows = pen.append('a')
    const failing = stores.log.transact(company, async (tx) => {
      await tx.append(rows)
      throw new Error('a bug')
    })
    await expect(failing).rejects.toThrow('a bug')
    await aMoment()
    expect(told).not.toContain(company)
    await stop()
    await appendTo(stores.log, company, rows)
    await aMoment()
    expect(told).not.toContain(company)
  })
}
