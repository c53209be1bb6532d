import { execFileSync, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type GoodLog, makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { logKeyOf, said, unpack, verifyAll } from './record-kit.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const has = (tool: string): boolean => spawnSync(tool, ['--version']).error === undefined
/** Locally a tool may be missing; in CI it must be there, or the promise that strangers can use it goes untested. */
const withTool = (tool: string) => (has(tool) || process.env.CI ? test : test.skip)

let good: GoodLog
let record: Uint8Array
let folder: string
beforeAll(async () => {
  good = await makeGoodLog()
  record = await recordBytes(good)
  folder = mkdtempSync(path.join(tmpdir(), 'screedbook-record-'))
  writeFileSync(path.join(folder, 'record.zip'), record)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe('a good record', () => {
  test('[L41] holds, and every part of it was checked', async () => {
    const verdict = await verifyAll(record)
    expect(verdict.findings).toEqual([])
    expect(verdict.holds).toBe(true)
    expect(verdict.checked).toMatchObject({
      entries: 23,
      leaves: 23,
      withheld: [],
      quoted: 7,
      authors: 30,
      photos: 1,
      figures: 'compared',
      pdf: 'compared',
    })
  })

  test('[L40] says whether it was checked with its own key or with one from elsewhere', async () => {
    expect((await verifyAll(record)).keySource).toBe('record')
    const given = await verifyAll(record, { logKey: logKeyOf(good.log) })
    expect([given.keySource, given.holds]).toEqual(['given', true])
  })

  test.each(['en', 'es'] as const)(
    '[L41.11] holds with a remark that no page was made for, in %s',
    async (language) => {
      const verdict = await verifyAll(
        await recordBytes(await makeGoodLog({ words: 'hostile', hostile: true }), { language }),
      )
      expect(said(verdict)).toEqual([])
      expect(verdict.checked.pdf).toBe('compared')
    },
  )

  test('[L41.6] an entry that was taken along into a new epoch is proven in the first one', async () => {
    const forked = await makeGoodLog({ words: 'epochs' })
    const [first] = forked.log.deviceLeaves.filter((l) => l.device === forked.devices.phone.id)
    forked.log.deviceLeaves.push({ ...first!, epoch: 2, index: 0 })
    expect(said(await verifyAll(await recordBytes(forked)))).toEqual([])
  })

  test('[L43] with an entry’s bytes gone holds, and tells which place they left', async () => {
    const gap = await makeGoodLog({ words: 'withheld' })
    const at = gap.log.leaves.findIndex((leaf) => leaf.entryHash === gap.named.get('water 12'))
    gap.log.leaves[at] = { ...gap.log.leaves[at]!, bytes: undefined }
    const verdict = await verifyAll(await recordBytes(gap))
    expect([said(verdict), verdict.checked.withheld]).toEqual([[], [16]])
  })
})

describe('the same bytes', () => {
  test('[L38] twice for the same release, checkpoint and request', async () => {
    expect(Buffer.compare(await recordBytes(await makeGoodLog()), record)).toBe(0)
  })

  test('[L38] of one checkpoint, whatever was logged and pushed after it', async () => {
    const grown = await makeGoodLog()
    const size = grown.log.leaves.length
    await grown.pushMore(grown.make('remark.made', { remark: { lang: 'en', text: 'One more.' } }, '11:20'))
    // A push that adds nothing leaves the log's size as it was, and a newer head.
    grown.log.heads.push({
      ...grown.log.heads.find((h) => h.device === grown.devices.second.id)!,
      atSize: size,
      size: 99,
      receivedAt: grown.log.heads.at(-1)!.receivedAt,
    })
    expect(Buffer.compare(await recordBytes(grown, { checkpointSize: size }), record)).toBe(0)
    grown.log.heads.pop()
    expect(Buffer.compare(await recordBytes(grown), record)).not.toBe(0)
  })

  test.each([
    { TZ: 'Pacific/Auckland', LANG: 'es_MX.UTF-8', LC_ALL: 'es_MX.UTF-8' },
    { TZ: 'America/St_Johns', LANG: 'tr_TR.UTF-8', SOURCE_DATE_EPOCH: '1' },
  ])('[L37] on a machine set to %j', (env) => {
    const file = path.join(folder, 'elsewhere.zip')
    execFileSync(
      process.execPath,
      ['--import', 'tsx', path.join(ROOT, 'tests/damage/make-sample.ts'), file],
      {
        cwd: ROOT,
        env: { ...process.env, ...env },
      },
    )
    expect(Buffer.compare(readFileSync(file), record)).toBe(0)
  })
})

describe('tools that know nothing of this program', () => {
  const unpacked = async (): Promise<string> => {
    const into = mkdtempSync(path.join(folder, 'files-'))
    for (const [name, bytes] of await unpack(record)) {
      mkdirSync(path.dirname(path.join(into, name)), { recursive: true })
      writeFileSync(path.join(into, name), bytes)
    }
    return into
  }

  withTool('unzip')('[L37] unzip -t finds no error', () => {
    expect(execFileSync('unzip', ['-t', path.join(folder, 'record.zip')], { encoding: 'utf8' })).toContain(
      'No errors',
    )
  })

  withTool('sha256sum')('[L39] sha256sum -c agrees with every line of SHA256SUMS', async () => {
    const checked = execFileSync('sha256sum', ['-c', 'SHA256SUMS'], {
      cwd: await unpacked(),
      encoding: 'utf8',
    })
    expect(
      checked
        .trim()
        .split('\n')
        .every((line) => line.endsWith(': OK')),
    ).toBe(true)
  })

  withTool('qpdf')('[L39] qpdf --check finds no error in the page', async () => {
    const checked = execFileSync('qpdf', ['--check', 'record.pdf'], {
      cwd: await unpacked(),
      encoding: 'utf8',
    })
    expect(checked).toContain('No syntax or stream encoding errors')
  })

  withTool('python3')('[L41] the checker written from the specification alone finds nothing', () => {
    const checked = spawnSync(
      'python3',
      [path.join(ROOT, 'tests/spec-checker/check.py'), path.join(folder, 'record.zip'), '--json'],
      { encoding: 'utf8' },
    )
    const { findings } = JSON.parse(checked.stdout) as { findings: { code: string }[] }
    expect(findings.filter(({ code }) => code !== 'entry-unread')).toEqual([])
  })
})
