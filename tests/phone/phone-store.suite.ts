import { describe, expect, test } from 'vitest'
import type { PhoneStore } from '../../web/sync/phone-store.ts'

/** What every store of a phone keeps to, in memory and in a browser: `web/sync/phone-store.ts`. */
export const holdsPhoneStoreRules = (name: string, makeFresh: () => PhoneStore): void => {
  describe(name, () => {
    test('what was put is read back, also in the same transaction', async () => {
      const store = makeFresh()
      const inside = await store.transact(async (tx) => {
        await tx.put('meta', 'a', { n: 1 })
        return tx.get('meta', 'a')
      })
      expect(inside).toEqual({ n: 1 })
      expect(await store.transact((tx) => tx.get('meta', 'a'))).toEqual({ n: 1 })
    })

    test('a key that was never put reads as undefined', async () => {
      expect(await makeFresh().transact((tx) => tx.get('own', 'nothing'))).toBeUndefined()
    })

    test('a transaction that throws leaves nothing behind and passes its error on', async () => {
      const store = makeFresh()
      await store.transact((tx) => tx.put('own', 'a', 'first'))
      const failing = store.transact(async (tx) => {
        await tx.put('own', 'a', 'second')
        await tx.put('meta', 'b', 'other shelf')
        throw new RangeError('no')
      })
      await expect(failing).rejects.toThrow(RangeError)
      const kept = await store.transact(async (tx) => [await tx.get('own', 'a'), await tx.get('meta', 'b')])
      expect(kept).toEqual(['first', undefined])
    })

    test('transactions come one after the other: none reads between another’s read and write', async () => {
      const store = makeFresh()
      const count = () =>
        store.transact(async (tx) => {
          const n = (await tx.get<number>('meta', 'count')) ?? 0
          await tx.get('meta', 'something else')
          await tx.put('meta', 'count', n + 1)
        })
      await Promise.all(Array.from({ length: 20 }, count))
      expect(await store.transact((tx) => tx.get('meta', 'count'))).toBe(20)
    })

    test('list gives [from, to) in the order of the keys, with writes of its own transaction', async () => {
      const store = makeFresh()
      await store.transact(async (tx) => {
        for (const key of ['c', 'a', 'e', 'b']) await tx.put('log', key, key)
      })
      const lists = await store.transact(async (tx) => {
        await tx.put('log', 'd', 'd')
        await tx.delete('log', 'a')
        return [
          await tx.list('log'),
          await tx.list('log', 'b', 'd'),
          await tx.list('log', 'd'),
          await tx.list('log', undefined, 'c'),
          await tx.list('log', 'd', 'd'),
          await tx.list('log', 'e', 'b'),
          await tx.list('threads'),
        ]
      })
      expect(lists).toEqual([['b', 'c', 'd', 'e'], ['b', 'c'], ['d', 'e'], ['b'], [], [], []])
    })

    test('keys sort by code unit, so that padded numbers sort as numbers', async () => {
      const store = makeFresh()
      await store.transact(async (tx) => {
        for (const key of ['000010', '000009', 'é', 'z', 'Z', '000100']) await tx.put('parts', key, key)
      })
      expect(await store.transact((tx) => tx.list('parts'))).toEqual([
        '000009',
        '000010',
        '000100',
        'Z',
        'z',
        'é',
      ])
    })

    test('a value is a copy: changing what was put or read changes nothing that is kept', async () => {
      const store = makeFresh()
      const bytes = new Uint8Array([1, 2, 3])
      await store.transact((tx) => tx.put('parts', 'p', bytes))
      bytes[0] = 9
      const read = (await store.transact((tx) => tx.get<Uint8Array>('parts', 'p')))!
      expect([...read]).toEqual([1, 2, 3])
      read[1] = 9
      expect([...(await store.transact((tx) => tx.get<Uint8Array>('parts', 'p')))!]).toEqual([1, 2, 3])
    })

    test('a transaction that is over refuses further requests', async () => {
      const store = makeFresh()
      let escaped: Promise<unknown> | undefined
      await store.transact(async (tx) => {
        await tx.put('meta', 'a', 1)
        setTimeout(() => {
          escaped = tx.put('meta', 'late', 1)
          escaped.catch(() => {})
        }, 20)
      })
      await new Promise((resolve) => setTimeout(resolve, 60))
      await expect(escaped).rejects.toThrow()
      expect(await store.transact((tx) => tx.get('meta', 'late'))).toBeUndefined()
    })
  })
}
