import { IDBFactory, IDBKeyRange } from 'fake-indexeddb'
import { beforeAll, describe, expect, test } from 'vitest'
import { makeDatabase, NewerAppOpen } from '../../web/device/database.ts'
import { makeStore, TransactionClosedEarly } from '../../web/device/store.ts'
import { holdsPhoneStoreRules } from './phone-store.suite.ts'

beforeAll(() => {
  globalThis.IDBKeyRange = IDBKeyRange
})

const freshStore = () => makeStore(makeDatabase(new IDBFactory(), 'test'))

holdsPhoneStoreRules('a phone’s store on IndexedDB', freshStore)

describe('the phone’s store on IndexedDB', () => {
  test('write transactions are opened with strict durability', async () => {
    const factory = new IDBFactory()
    const database = makeDatabase(factory, 'test')
    const opened = await database.begin(['meta'], 'readwrite')
    expect(opened.durability).toBe('strict')
  })

  test('a connection that was lost is opened again before anything runs', async () => {
    const database = makeDatabase(new IDBFactory(), 'test')
    const store = makeStore(database)
    await store.transact((tx) => tx.put('meta', 'a', 1))
    const { db } = await database.begin(['meta'], 'readonly')
    db.close()
    expect(await store.transact((tx) => tx.get('meta', 'a'))).toBe(1)
  })

  test('a database of a newer app is left alone and said to be newer', async () => {
    const factory = new IDBFactory()
    await new Promise((resolve, reject) => {
      const request = factory.open('test', 99)
      request.onsuccess = () => {
        request.result.close()
        resolve(undefined)
      }
      request.onerror = () => reject(request.error)
    })
    await expect(
      makeStore(makeDatabase(factory, 'test')).transact((tx) => tx.get('meta', 'a')),
    ).rejects.toThrow(NewerAppOpen)
  })

  test('a transaction that waited for something foreign is never called kept', async () => {
    const store = freshStore()
    const wrong = store.transact(async (tx) => {
      await tx.put('meta', 'a', 1)
      await new Promise((resolve) => setTimeout(resolve, 30))
    })
    await expect(wrong).rejects.toThrow(TransactionClosedEarly)
  })

  test('readers can’t write', async () => {
    await expect(freshStore().read((tx) => tx.put('meta', 'a', 1))).rejects.toThrow()
  })

  test('writers are announced once they are complete, readers are not', async () => {
    let told = 0
    const store = makeStore(makeDatabase(new IDBFactory(), 'test'), () => told++)
    await store.transact((tx) => tx.get('meta', 'a'))
    await store.read((tx) => tx.get('meta', 'a'))
    expect(told).toBe(0)
    await store.transact((tx) => tx.put('meta', 'a', 1))
    expect(told).toBe(1)
  })
})
