import { execFileSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { readCertificates } from '../../api/verify/timestamp/pem.ts'
import { type GoodLog, makeGoodLog } from '../damage/good-log.ts'
import { recordBytes } from '../damage/make-good.ts'
import { said, textOf, unpack, verifyAll } from '../damage/record-kit.ts'
import { type Authority, createAuthority, infoOf } from './authority.ts'
import { NONCE, readStamp, stampLog } from './stamp-log.ts'

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

const pem = (text: string): readonly Uint8Array[] => {
  const read = readCertificates(text)
  if (!read.ok) throw new Error('the certificate is out of form')
  return read.value
}

test('[L57] a record brings the stamp over its entries, and the checker says when, by whom, and how far', async () => {
  const verdict = await verifyAll(record, { readTimestamp: readStamp })
  expect(said(verdict)).toEqual([])
  expect(verdict.stamps).toMatchObject([
    { size, is: 'holds', authority: 'Harrow Time (good)', rootedIn: 'token', upTo: 23 },
  ])
  const trusted = await verifyAll(record, { readTimestamp: readStamp, stampRoots: pem(authority.root) })
  expect([said(trusted), trusted.stamps[0]?.rootedIn]).toEqual([[], 'given'])
})

test('[L57] a stamp that was not read is not called good', async () => {
  const verdict = await verifyAll(record)
  expect([said(verdict), verdict.stamps[0]?.is]).toEqual([[], 'not-checked'])
})

test('[L57] with an authority’s certificate from elsewhere, a stamp of another authority does not hold', async () => {
  const verdict = await verifyAll(record, { readTimestamp: readStamp, stampRoots: pem(authority.strange) })
  expect([said(verdict), verdict.stamps[0]?.is]).toEqual([[`stamp-authority stamps/${size}.tsr`], 'fails'])
})

test('[L57] the page says that there is a stamp, and no longer that there is none', async () => {
  const lines = pageLines(pageOf(JSON.parse(textOf(await unpack(record), 'record.json')))).join('\n')
  expect(lines).toContain(`at size ${size}`)
  expect(lines).not.toContain('no outside time stamp')
})

test.each([
  ['RSA over SHA-512', 'good', ['-md', 'sha512']],
  ['RSA-PSS over SHA-256', 'good', ['-md', 'sha256', '-keyopt', 'rsa_padding_mode:pss']],
  ['ECDSA on P-384 over SHA-384', 'curve', ['-md', 'sha384']],
] as const)('[L58] a stamp signed by %s holds', async (_, signer, how) => {
  const other = await makeGoodLog({ words: 'signed otherwise' })
  await stampLog(other, authority, { response: (plain) => authority.signedBy(plain, signer, how) })
  const verdict = await verifyAll(await recordBytes(other), {
    readTimestamp: readStamp,
    stampRoots: pem(authority.root),
  })
  expect([said(verdict), verdict.stamps[0]?.rootedIn]).toEqual([[], 'given'])
})

test('[L58] a stamp over a hash that can be forged, SHA-1, does not hold', async () => {
  const other = await makeGoodLog({ words: 'signed over SHA-1' })
  await stampLog(other, authority, {
    response: (plain) => authority.signedBy(plain, 'good', ['-md', 'sha1']),
  })
  const verdict = await verifyAll(await recordBytes(other), { readTimestamp: readStamp })
  expect(said(verdict)).toContain('stamp-signature stamps/33.tsr')
})

test('[L57] openssl ts -verify agrees, over the note and against the root alone', async () => {
  const files = await unpack(record)
  const at = (name: string): string => path.join(authority.folder, name)
  writeFileSync(at('record.tsr'), files.get(`stamps/${size}.tsr`)!)
  writeFileSync(at('record.note'), files.get(`earlier/${size}.note`)!)
  const verified = execFileSync(
    'openssl',
    ['ts', '-verify', '-in', 'record.tsr', '-data', 'record.note', '-CAfile', 'root.pem'],
    { cwd: authority.folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] },
  )
  expect(verified).toContain('Verification: OK')
})

test('[L57] the same log gives the same bytes again, and a record of an earlier checkpoint has no stamp', async () => {
  expect(Buffer.compare(await recordBytes(good), record)).toBe(0)
  const before = await unpack(await recordBytes(good, { checkpointSize: size }))
  expect([...before.keys()].filter((name) => name.startsWith('stamps/'))).toEqual([])
})

test('[L57] of several stamps a record brings the first over each of its entries, not each later day’s', async () => {
  const days = await makeGoodLog({ words: 'days' })
  const first = await stampLog(days, authority)
  await days.pushMore(days.make('remark.made', { remark: { lang: 'en', text: 'Cold.' } }, '11:40'), '23:00')
  const second = await stampLog(days, authority)
  // Nothing but a stamp came in between: it anchors no entry of the job that another does not anchor earlier.
  const third = await stampLog(days, authority)
  const verdict = await verifyAll(await recordBytes(days), { readTimestamp: readStamp })
  expect(verdict.stamps.map((stamp) => [stamp.size, stamp.is])).toEqual([
    [first, 'holds'],
    [second, 'holds'],
  ])
  expect(third).toBeGreaterThan(second)
})

test('[L57] one byte changed is found wherever it is signed, or is the signature', async () => {
  const files = await unpack(record)
  const response = Buffer.from(files.get(`stamps/${size}.tsr`)!)
  const stamped = files.get(`earlier/${size}.note`)!
  const signed = infoOf(new Uint8Array(response))
  const info = response.indexOf(signed)
  // An RSA signature of 2,048 bits is the response's end: nothing unsigned follows it.
  const places = [
    ...Array.from(signed, (_, i) => info + i),
    ...Array.from({ length: 256 }, (_, i) => response.length - 256 + i),
  ]
  const missed: number[] = []
  for (const at of places) {
    const bytes = new Uint8Array(response)
    bytes[at]! ^= 1
    const { problems } = await readStamp(bytes, { stamped, nonce: NONCE, roots: [] })
    if (problems.length === 0) missed.push(at)
  }
  expect(missed).toEqual([])
})
