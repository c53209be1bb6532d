import { expect, test } from 'vitest'
import { hexOf, NOTHING } from '../pen.ts'
import type { Given } from '../store-suite.ts'
import { appendTo, newCompany } from './company.ts'

export const stampSuite = (given: Given): void => {
  test('[L57] a response is kept under its hash, for its company alone, and the same again is one', async () => {
    const { stores, elsewhere } = given()
    const { company, pen } = await newCompany(stores.log)
    const other = await newCompany(stores.log)
    const row = { token: hexOf('response'), size: 2, bytes: new Uint8Array([1, 0, 255]), receivedAt: 77 }
    await appendTo(stores.log, company, { ...pen.append('a', 'b'), stamps: [row] })
    const again = { ...row, receivedAt: 99 }
    await appendTo(stores.log, company, { ...NOTHING, frontier: pen.state().frontier, stamps: [again] })
    expect(await elsewhere.log.stamp(company, row.token)).toEqual(row)
    expect(await stores.log.stamp(other.company, row.token)).toBeUndefined()
    expect(await stores.log.stamp(company, hexOf('another'))).toBeUndefined()
    expect(await stores.log.stamp(company, 'no hash')).toBeUndefined()
    expect(await stores.log.stamp('no company', row.token)).toBeUndefined()
  })

  test('[L57] the last checkpoint before a time is that of the last leaf received before it', async () => {
    const { stores } = given()
    const { company, pen } = await newCompany(stores.log)
    // The third clock stepped back: what is looked for is the end of all that came before the time.
    for (const [names, receivedAt] of [
      [['a', 'b'], 100],
      [['c'], 200],
      [['d', 'e'], 150],
      [['f'], 300],
    ] as const) {
      const append = pen.append(...names)
      await appendTo(stores.log, company, {
        ...append,
        leaves: append.leaves.map((leaf) => ({ ...leaf, receivedAt })),
      })
    }
    const before = async (time: number) => (await stores.log.checkpointBefore(company, time))?.size
    expect(await Promise.all([100, 101, 151, 201, 300, 301].map(before))).toEqual([undefined, 2, 5, 5, 5, 6])
    expect(await stores.log.checkpointBefore('no company', 500)).toBeUndefined()
  })
}
