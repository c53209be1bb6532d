import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'

const HERE = fileURLToPath(new URL('.', import.meta.url))
const folder = mkdtempSync(path.join(tmpdir(), 'stranger-'))
const record = path.join(folder, 'record.zip')

beforeAll(() => {
  const maker = fileURLToPath(new URL('../damage/make-sample.ts', import.meta.url))
  execFileSync(process.execPath, ['--import', 'tsx', maker, record], { stdio: 'inherit' })
}, 120_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('[L42] a stranger’s checker, written from SPEC.md alone, accepts our record', () => {
  const run = spawnSync('python3', ['check.py', record, '--json'], { cwd: HERE, encoding: 'utf8' })
  expect(JSON.parse(run.stdout)).toMatchObject({ ok: true, findings: [] })
  expect(run.status).toBe(0)
})

test('[L42] it finds every damage of its own tests, and each flipped file of our record', () => {
  const env = { ...process.env, RECORD: record }
  const run = spawnSync('python3', ['-m', 'unittest', '-q'], { cwd: HERE, encoding: 'utf8', env })
  expect(run.stderr).toMatch(/Ran \d{3} tests/)
  expect(run.stderr).toMatch(/^OK/m)
  expect(run.status).toBe(0)
}, 240_000)
