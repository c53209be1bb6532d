import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { run } from '../../../api/cli/hear.ts'

const hear = async (text: string, ...args: readonly string[]) => {
  const folder = await mkdtemp(path.join(tmpdir(), 'hear-'))
  const file = path.join(folder, 'said.txt')
  await writeFile(file, text)
  const out: string[] = []
  const err: string[] = []
  const code = await run([...args, file], { out: (line) => out.push(line), err: (line) => err.push(line) })
  await rm(folder, { recursive: true })
  return { code, out, err }
}
const AT = ['--at', '2026-04-21T09:00:00-05:00']

describe('[hear] the command', () => {
  test('[hear] one JSON array a line, [] for a line that gives nothing, and for an empty one', async () => {
    const { code, out } = await hear('Added ten gallons.\n\nWhere is the hose?\r\nNo water', ...AT)
    expect(code).toBe(0)
    expect(out.map((line) => JSON.parse(line))).toEqual([
      [{ kind: 'load.water_added', value: 10, unit: 'gal' }],
      [],
      [],
      [{ kind: 'load.water_added', value: 0, unit: 'gal' }],
    ])
  })

  test('[hear] with --unread also what was not understood and the question', async () => {
    const { out } = await hear("Air's fifteen.", ...AT, '--unread')
    expect(JSON.parse(out[0]!)).toMatchObject({ unread: [], question: { about: 'reading.air' } })
  })

  test('[hear] a moment without its offset, no moment and no file are said with what to do', async () => {
    expect((await hear('x', '--at', '2026-04-21T09:00')).err[0]).toContain('2026-04-21T09:00:00-05:00')
    expect((await hear('x')).err[0]).toContain('--at')
    const err: string[] = []
    const gone = path.join(tmpdir(), 'no-such-folder', 'said.txt')
    expect(await run([...AT, gone], { out: () => {}, err: (line) => err.push(line) })).toBe(2)
    expect(err[0]).toContain('could not be read')
  })
})
