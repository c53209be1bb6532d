import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type Authority, createAuthority } from '../stamps/authority.ts'
import { stampLog } from '../stamps/stamp-log.ts'
import { type GoodLog, makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { unpack } from './record-kit.ts'
import { STAMP_ROWS } from './rows/stamps.ts'
import { ROWS } from './rows.ts'

const CHECKER = fileURLToPath(new URL('../spec-checker/check.py', import.meta.url))
/** What needs the rules of the trade (L41.11), and how each checker names a folder of tables that isn't there. */
const NOT_ITS_AFFAIR = new Set(['figures-differ', 'pdf-differs', 'table-differs'])
const OTHERWISE = new Set(['tables/water.csv'])

const hasPython = spawnSync('python3', ['--version']).error === undefined
let good: GoodLog
let record: Uint8Array
let folder: string
let authority: Authority
let stamped: { readonly good: GoodLog; readonly size: number; readonly record: Uint8Array }
beforeAll(async () => {
  good = await makeGoodLog()
  record = await recordBytes(good)
  authority = createAuthority()
  const stampedLog = await makeGoodLog({ words: 'stamped' })
  const size = await stampLog(stampedLog, authority)
  stamped = { good: stampedLog, size, record: await recordBytes(stampedLog) }
  folder = mkdtempSync(path.join(tmpdir(), 'screedbook-second-'))
})
afterAll(() => {
  rmSync(folder, { recursive: true, force: true })
  authority?.remove()
})

type Findings = readonly { readonly code: string; readonly file: string }[]

const askSecond = (file: string): Promise<Findings> =>
  new Promise((resolve, reject) => {
    const child = spawn('python3', [CHECKER, file, '--json'], { stdio: ['ignore', 'pipe', 'pipe'] })
    let [out, said] = ['', '']
    child.stdout.on('data', (chunk) => {
      out += chunk
    })
    child.stderr.on('data', (chunk) => {
      said += chunk
    })
    child.on('error', reject)
    child.on('close', () => {
      try {
        resolve((JSON.parse(out) as { findings: Findings }).findings)
      } catch {
        reject(new Error(`the second checker gave no answer: ${said.slice(-500)}`))
      }
    })
  })

/** Two programs that share nothing but the specification, on the same damage. */
describe.skipIf(!hasPython && !process.env.CI)('the checker written from the specification alone', () => {
  const rows = ROWS.filter(({ by }) => by.includes('spec-checker')).map((row) => ({
    ...row,
    title: `[${row.rule}] ${row.damage}`,
  }))
  test.each(rows)('finds as ours does: $title', async ({ make, expect: wanted }) => {
    const file = path.join(folder, 'damaged.zip')
    writeFileSync(file, await make({ good, files: await unpack(record) }))
    const findings = await askSecond(file)
    for (const [code, name] of wanted) {
      if (NOT_ITS_AFFAIR.has(code) || OTHERWISE.has(String(name))) continue
      const fits = (f: Findings[number]) =>
        f.code === code && (typeof name === 'string' ? f.file === name : name.test(f.file))
      expect(
        findings.some(fits),
        `${code} ${name} among:\n${findings.map((f) => `${f.code} ${f.file}`).join('\n')}`,
      ).toBe(true)
    }
  })

  const stamps = STAMP_ROWS.filter(({ by }) => by.includes('spec-checker'))
  test.each(stamps.map((row) => ({ ...row, title: `[${row.rule}] ${row.damage}` })))(
    'finds as ours does: $title',
    async ({ make, expect: wanted }) => {
      const file = path.join(folder, 'stamps.zip')
      const { size, record: whole, good: stampedLog } = stamped
      writeFileSync(file, await make({ authority, good: stampedLog, size, files: await unpack(whole) }))
      const findings = await askSecond(file)
      for (const [code, name] of wanted)
        expect(
          findings.some((f) => f.code === code && name.test(f.file)),
          `${code} ${name} among:\n${findings.map((f) => `${f.code} ${f.file}`).join('\n')}`,
        ).toBe(true)
    },
  )

  test('[L57] and nothing in a record with a stamp that nobody touched', async () => {
    const file = path.join(folder, 'stamped.zip')
    writeFileSync(file, stamped.record)
    expect(await askSecond(file)).toEqual([])
  })
})
