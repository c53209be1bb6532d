import { randomBytes, randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import type { CodeRow } from '../../../db/log-store/account-store.ts'
import type { Given } from '../store-suite.ts'

const secretHash = () => randomBytes(32).toString('hex')
const setUp = (): CodeRow => ({
  codeHash: secretHash(),
  purpose: 'set-up',
  company: undefined,
  person: undefined,
  use: undefined,
  expiresAt: 1000,
})

export const accountSuite = (given: Given): void => {
  test('[codes] a code is found until it is past, and being looked at does not use it up', async () => {
    const { accounts } = given().stores
    const code: CodeRow = {
      ...setUp(),
      purpose: 'join',
      company: randomUUID(),
      person: randomUUID(),
      use: 'phone',
    }
    const bare = setUp()
    await accounts.putCode(code)
    await accounts.putCode(bare)
    expect(await accounts.code(code.codeHash, 999)).toEqual(code)
    expect(await accounts.code(code.codeHash, 999)).toEqual(code)
    expect(await accounts.code(bare.codeHash, 0)).toEqual(bare)
    expect(await accounts.code(code.codeHash, 1000)).toBeUndefined()
    expect(await accounts.code(secretHash(), 0)).toBeUndefined()
  })

  test('[challenges] a challenge is taken once, and not when it is past', async () => {
    const { accounts } = given().stores
    const [one, past] = [secretHash(), secretHash()]
    await accounts.putChallenge({ nonceHash: one, expiresAt: 1000 })
    await accounts.putChallenge({ nonceHash: past, expiresAt: 1000 })
    expect(await accounts.takeChallenge(past, 1000)).toBe(false)
    const taken = await Promise.all(Array.from({ length: 20 }, () => accounts.takeChallenge(one, 999)))
    expect(taken.filter(Boolean)).toHaveLength(1)
    expect(await accounts.takeChallenge(one, 0)).toBe(false)
  })

  test('[sessions] a session lasts until it is past or its device is dropped, and no other goes with it', async () => {
    const { accounts } = given().stores
    const [company, device, other] = [randomUUID(), randomUUID(), randomUUID()]
    const rows = [device, device, other].map((of) => ({
      tokenHash: secretHash(),
      company,
      device: of,
      expiresAt: 1000,
    }))
    const abroad = { tokenHash: secretHash(), company: randomUUID(), device, expiresAt: 1000 }
    for (const row of [...rows, abroad]) await accounts.putSession(row)
    expect(await accounts.session(rows[0]!.tokenHash, 999)).toEqual(rows[0])
    expect(await accounts.session(rows[0]!.tokenHash, 1000)).toBeUndefined()
    await accounts.dropSessions(company, device)
    const left = await Promise.all([...rows, abroad].map((row) => accounts.session(row.tokenHash, 0)))
    expect(left).toEqual([undefined, undefined, rows[2], abroad])
    await accounts.putSession({ ...abroad, expiresAt: 2000 })
    expect((await accounts.session(abroad.tokenHash, 1500))?.expiresAt).toBe(2000)
  })

  test('[sweep] what is past is forgotten, and what is not stays', async () => {
    const { accounts } = given().stores
    const [past, lasting] = [setUp(), { ...setUp(), expiresAt: 1001 }]
    const session = { tokenHash: secretHash(), company: randomUUID(), device: randomUUID(), expiresAt: 1000 }
    const nonceHash = secretHash()
    await accounts.putCode(past)
    await accounts.putCode(lasting)
    await accounts.putSession(session)
    await accounts.putChallenge({ nonceHash, expiresAt: 1000 })
    await accounts.sweep(1000)
    expect(await accounts.code(past.codeHash, 0)).toBeUndefined()
    expect(await accounts.session(session.tokenHash, 0)).toBeUndefined()
    expect(await accounts.takeChallenge(nonceHash, 0)).toBe(false)
    expect(await accounts.code(lasting.codeHash, 0)).toEqual(lasting)
  })
}
