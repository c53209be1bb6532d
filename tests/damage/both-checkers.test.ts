import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { FindingCode } from '../../api/verify/findings.ts'
import { type GoodLog, makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { unpack } from './record-kit.ts'
import { ROWS } from './rows.ts'

const STRANGER = fileURLToPath(new URL('../spec-checker/check.py', import.meta.url))
/** What needs the rules of the trade, and is left to the program's own checker: SPEC L41.11. */
const TRADE: ReadonlySet<FindingCode> = new Set(['figures-differ', 'pdf-differs', 'table-differs'])

const folder = mkdtempSync(path.join(tmpdir(), 'both-'))
let good: GoodLog
let record: Uint8Array
beforeAll(async () => {
  good = await makeGoodLog()
  record = await recordBytes(good)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/**
 * What of a row's findings the stranger must have by the same code and file: the first that is a failure of the log.
 * (Beyond it the two may differ: in how much they still read of a note whose signature does not hold, say.)
 */
const ofTheLog = (row: (typeof ROWS)[number]) =>
  row.expect.find(
    ([code, name]) => !TRADE.has(code) && code !== 'entry-unread' && !String(name).startsWith('tables/'),
  )
const OF_THE_LOG = ROWS.filter((row) => ofTheLog(row) !== undefined)

describe('[L41] what concerns the log, a checker written from SPEC.md alone finds too', () => {
  test.each(OF_THE_LOG.map((row) => ({ row, title: `[${row.rule}] ${row.damage}` })))(
    '$title',
    async ({ row }) => {
      const file = path.join(folder, 'damaged.zip')
      writeFileSync(file, await row.make({ good, files: await unpack(record) }))
      const run = spawnSync('python3', [STRANGER, file, '--json'], { encoding: 'utf8' })
      const said = JSON.parse(run.stdout) as { ok: boolean; findings: { code: string; file: string }[] }
      expect(run.status, run.stderr).toBe(1)
      const [code, name] = ofTheLog(row)!
      const found = said.findings.some(
        (f) => f.code === code && (typeof name === 'string' ? f.file === name : name.test(f.file)),
      )
      expect(
        found,
        `${code} ${name} among:\n${said.findings.map((f) => `${f.code} ${f.file}`).join('\n')}`,
      ).toBe(true)
    },
  )
})
