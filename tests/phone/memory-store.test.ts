import { describe, expect, test } from 'vitest'
import { createMemoryPhoneStore, PhoneCrashed } from '../kit/memory-phone-store.ts'
import { holdsPhoneStoreRules } from './phone-store.suite.ts'

holdsPhoneStoreRules('a phone’s store in memory', () => createMemoryPhoneStore())

describe('the phone’s store in memory, crashed', () => {
  test('a crash drops what was not committed, and keeps what was', async () => {
    const store = createMemoryPhoneStore()
    await store.transact((tx) => tx.put('own', 'kept', 1))
    const lost = store.transact(async (tx) => {
      await tx.put('own', 'lost', 1)
      store.crash()
    })
    const waiting = store.transact((tx) => tx.put('own', 'waiting', 1))
    await expect(lost).rejects.toThrow(PhoneCrashed)
    await expect(waiting).rejects.toThrow(PhoneCrashed)
    expect(await store.transact((tx) => tx.list('own'))).toEqual([1])
  })

  test('a fault before complete loses the write and says so', async () => {
    const store = createMemoryPhoneStore((point) => {
      if (point === 'before-complete') throw new Error('disk full')
    })
    await expect(store.transact((tx) => tx.put('own', 'a', 1))).rejects.toThrow('disk full')
    store.fault = undefined
    expect(await store.transact((tx) => tx.get('own', 'a'))).toBeUndefined()
  })

  test('a fault after complete keeps the write and reports it lost', async () => {
    const store = createMemoryPhoneStore((point) => {
      if (point === 'after-complete') throw new Error('power')
    })
    await expect(store.transact((tx) => tx.put('own', 'a', 1))).rejects.toThrow('power')
    store.fault = undefined
    expect(await store.transact((tx) => tx.get('own', 'a'))).toBe(1)
  })

  test('a crash after complete keeps the write, though its caller hears of the crash', async () => {
    const store = createMemoryPhoneStore()
    store.fault = (point) => {
      if (point === 'after-complete') store.crash()
    }
    await expect(store.transact((tx) => tx.put('own', 'a', 1))).rejects.toThrow(PhoneCrashed)
    store.fault = undefined
    expect(await store.transact((tx) => tx.get('own', 'a'))).toBe(1)
  })
})
