import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readCertificates } from '../../api/verify/timestamp/pem.ts'
import { type Authority, createAuthority } from '../stamps/authority.ts'
import { readStamp, stampLog } from '../stamps/stamp-log.ts'
import { type GoodLog, makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { said, unpack, verifyAll } from './record-kit.ts'
import { STAMP_ROWS } from './rows/stamps.ts'

let authority: Authority
let good: GoodLog
let size: number
let record: Uint8Array
beforeAll(async () => {
  authority = createAuthority()
  good = await makeGoodLog({ words: 'stamped' })
  size = await stampLog(good, authority)
  record = await recordBytes(good)
})
afterAll(() => authority?.remove())

describe('each damage to a time stamp is found by screedbook verify', () => {
  test.each(STAMP_ROWS.map((row) => ({ ...row, title: `[${row.rule}] ${row.damage}` })))(
    '$title',
    async ({ make, trusts, expect: wanted }) => {
      const bytes = await make({ authority, good, size, files: await unpack(record) })
      const roots = trusts && readCertificates(authority[trusts])
      const verdict = await verifyAll(bytes, {
        readTimestamp: readStamp,
        ...(roots?.ok ? { stampRoots: roots.value } : {}),
      })
      expect(verdict.holds).toBe(false)
      for (const [code, file] of wanted)
        expect(
          verdict.findings.some((f) => f.code === code && file.test(f.file)),
          `${code} ${file} among:\n${said(verdict).join('\n')}`,
        ).toBe(true)
    },
  )
})
