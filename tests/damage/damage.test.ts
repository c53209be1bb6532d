import { beforeAll, describe, expect, test } from 'vitest'
import { VOCABULARY } from '../../api/domain/entry/registry.ts'
import { canonicalJson, writePlain } from '../../api/domain/log/bytes.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import { slipWords, writeSlip } from '../../api/domain/log/slip.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { pageOf } from '../../api/domain/record/page/page.ts'
import { typeset } from '../../api/server/record/typeset/typeset.ts'
import { sha256 } from '../../api/server/senses.ts'
import { FINDING_CODES } from '../../api/verify/findings.ts'
import { type GoodLog, makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { logKeyOf, remake, said, textOf, unpack, verify, verifyAll } from './record-kit.ts'
import { STAMP_ROWS } from './rows/stamps.ts'
import { ROWS } from './rows.ts'
import { emptyLog, takePush, treeHead } from './scripted-log.ts'

let good: GoodLog
let record: Uint8Array
const found = new Set<string>()
beforeAll(async () => {
  good = await makeGoodLog()
  record = await recordBytes(good)
})

const check = async (bytes: Uint8Array, more: Parameters<typeof verifyAll>[1] = {}) => {
  const verdict = await verifyAll(bytes, more)
  for (const { code } of verdict.findings) found.add(code)
  return verdict
}

describe('each damage is found, by its code and its file', () => {
  test.each(
    ROWS.filter(({ by }) => by.includes('verify')).map((row) => ({
      ...row,
      title: `[${row.rule}] ${row.damage}`,
    })),
  )('$title', async ({ make, expect: wanted }) => {
    const verdict = await check(await make({ good, files: await unpack(record) }))
    expect(verdict.holds).toBe(false)
    for (const [code, file] of wanted)
      expect(
        verdict.findings.some(
          (f) => f.code === code && (typeof file === 'string' ? f.file === file : file.test(f.file)),
        ),
        `${code} ${file} among:\n${said(verdict).join('\n')}`,
      ).toBe(true)
  })

  test('[L41.11] a figure changed on the page, and the manifest remade', async () => {
    const files = await unpack(record)
    const model = JSON.parse(textOf(files, 'record.json')) as RecordModel
    const [first, second] = model.job.loads
    const forged = {
      ...model,
      job: {
        ...model.job,
        loads: [
          first!,
          { ...second!, batchToEnd: { is: 'given' as const, minutes: [88], backwards: 'no' as const } },
        ],
      },
    }
    const pdf = await typeset(pageOf(forged), { language: 'en', createdAt: Date.parse(model.made) })
    if (!pdf.ok) throw new Error(pdf.problem.code)
    expect(said(await check(await remake(files.set('record.pdf', pdf.value), good.log)))).toEqual([
      'pdf-differs record.pdf',
    ])
    // The same in the model does not help: the entries say otherwise.
    files.set('record.json', toUtf8(canonicalJson(forged)))
    expect(said(await check(await remake(files, good.log)))).toEqual([
      'figures-differ record.json',
      'pdf-differs record.pdf',
    ])
  })

  test('[L41.11] the foot of a sheet changed, and the manifest remade', async () => {
    const files = await unpack(record)
    const model = JSON.parse(textOf(files, 'record.json')) as RecordModel
    const page = pageOf(model)
    const pdf = await typeset(
      { ...page, footer: page.footer.replace('2026-04-21', '2026-04-20') },
      { language: 'en', createdAt: Date.parse(model.made) },
    )
    if (!pdf.ok) throw new Error(pdf.problem.code)
    expect(said(await check(await remake(files.set('record.pdf', pdf.value), good.log)))).toEqual([
      'pdf-differs record.pdf',
    ])
  })

  test.each([
    ['no bytes', new Uint8Array()],
    ['a line of text', toUtf8('this is no record\n')],
    ['many bytes of nothing', new Uint8Array(100_000)],
  ])('[L37] %s: that this is no ZIP is the one finding', async (_, bytes) => {
    const verdict = await check(bytes)
    expect([said(verdict), verdict.holds, verdict.keySource]).toEqual([['zip-malformed -'], false, 'none'])
  })

  test('[L40] a record checked with the key of another log', async () => {
    expect(said(await check(record, { logKey: logKeyOf(emptyLog(good.log.company, 'another')) }))).toContain(
      'key-differs log.vkey',
    )
  })

  test('[L41.6] an entry that a phone made in the server’s name', async () => {
    const other = await makeGoodLog({ words: 'server name' })
    await other.pushMore(
      other.make('photo.received', { photo: 'ab'.repeat(32), bytes: 1 }, '11:25', { by: 'server' }),
    )
    expect(said(await check(await recordBytes(other)))).toEqual(['author-differs entries/000024.json'])
  })

  test('[L56] an entry that was set aside, and that no owner admitted', async () => {
    const other = await makeGoodLog({ words: 'set aside' })
    const { server, second } = other.devices
    const entry = other.named.get('water 8')!
    const { boot, ...rest } = JSON.parse(
      new TextDecoder().decode(
        other.make('photo.received', { photo: entry, bytes: 1 }, '11:25', { by: 'server' }),
      ),
    )
    const aside = writePlain({
      ...rest,
      boot,
      v: 2,
      job: other.log.company,
      kind: 'push.quarantined',
      device: server.id,
      body: { device: second.id, entries: [entry] },
    })
    const receivedAt = other.log.leaves.at(-1)!.receivedAt + 1_000
    await takePush(other.log, { device: server, entries: [aside], receivedAt, seen: 0, boot })
    expect(said(await check(await recordBytes(other)))).toEqual(['entry-set-aside thread.txt'])
  })

  test('[L44] an entry of a later release is told, and is no failure', async () => {
    const newer = await makeGoodLog({ words: 'newer' })
    const { id } = JSON.parse(
      new TextDecoder().decode(newer.make('discharge.ended', { load: newer.job }, '11:25')),
    )
    const { id: device } = newer.devices.phone
    await newer.pushMore(
      writePlain({ v: VOCABULARY + 1, id, job: newer.job, kind: 'mood.felt', device, news: 'x' }),
    )
    const verdict = await check(await recordBytes(newer))
    expect([said(verdict), verdict.holds]).toEqual([['entry-unread entries/000024.json'], true])
  })
})

describe('slips', () => {
  const slipOf = (size: number, count: number, change: Partial<Parameters<typeof writeSlip>[0]> = {}) => {
    const last = good.log.leaves.find((l) => l.job === good.job && l.count === count)!.leafHash
    return {
      name: 'slip.txt',
      bytes: toUtf8(
        writeSlip({ origin: good.log.origin, head: treeHead(good.log, size), count, last, ...change }),
      ),
    }
  }

  test('[L36] a record agrees with a slip that was handed out before', async () => {
    const asked = await recordBytes(good, { slipSizes: [20] })
    const verdict = await check(asked, { slip: slipOf(20, 12) })
    expect([said(verdict), verdict.checked.slips]).toEqual([[], 1])
    expect(said(await check(record, { slip: slipOf(good.log.leaves.length, 23) }))).toEqual([])
  })

  test('[L36] eight words are enough, where the record leads back to the slip; other words are no state of it', async () => {
    const asked = await recordBytes(good, { slipSizes: [20] })
    const last = good.log.leaves.find((l) => l.job === good.job && l.count === 12)!.leafHash
    const words = slipWords(
      { origin: good.log.origin, head: treeHead(good.log, 20), count: 12, last },
      sha256,
    )
    const given = { name: 'slip', words }
    expect(said(await check(asked, { slip: given }))).toEqual([])
    expect(said(await check(record, { slip: given }))).toEqual(['slip-unknown slip'])
    const swapped = { name: 'slip', words: [words[1]!, words[0]!, ...words.slice(2)] }
    expect(said(await check(asked, { slip: swapped }))).toEqual(['slip-unknown slip'])
  })

  test('[L41.10] a slip for which no way to the checkpoint was asked', async () => {
    expect(said(await check(record, { slip: slipOf(20, 12) }))).toEqual([
      'consistency-missing earlier/20.consistency',
    ])
  })

  test.each([
    ['of another leaf', { last: new Uint8Array(32) }, 'slip-disagrees slip.txt'],
    ['of another root', { head: { size: 10, root: new Uint8Array(32) } }, 'slip-disagrees slip.txt'],
    [
      'of another log',
      { origin: 'screedbook/00000000-0000-0000-0000-000000000000' },
      'slip-disagrees slip.txt',
    ],
    ['of a later size', { head: { size: 500, root: new Uint8Array(32) } }, 'slip-later slip.txt'],
  ] as const)('[L41.10] a slip %s', async (_, change, wanted) => {
    expect(said(await check(record, { slip: slipOf(10, 2, change) }))).toEqual([wanted])
  })

  test('[L41.10] a slip out of form, and one of a later version', async () => {
    const slip = slipOf(10, 2)
    expect(said(await check(record, { slip: { ...slip, bytes: slip.bytes.slice(0, -3) } }))).toEqual([
      'slip-malformed slip.txt',
    ])
    const later = toUtf8(new TextDecoder().decode(slip.bytes).replace('/v1', '/v2'))
    expect(said(await check(record, { slip: { ...slip, bytes: later } }))).toEqual([
      'format-unknown slip.txt',
    ])
  })
})

describe('one byte', () => {
  test('[L41.1] flipped in any file is found, and the file is named', async () => {
    for (const [name, bytes] of await unpack(record)) {
      const at = Buffer.from(record).indexOf(Buffer.from(bytes))
      const damaged = record.slice()
      damaged[at + Math.floor(bytes.length / 2)]! ^= 1
      const verdict = await verify(damaged)
      for (const { code } of verdict.findings) found.add(code)
      expect([name, verdict.holds]).toEqual([name, false])
      expect(verdict.findings.map((f) => f.file)).toContain(name)
    }
  })

  test('[L37] flipped in any header of the ZIP is found', async () => {
    // The program that made it (two bytes of each directory line) is the one thing that no rule fixes.
    const madeBy = new Set<number>()
    const headers: number[] = []
    for (const [mark, fixed] of [
      ['PK\x01\x02', 46],
      ['PK\x03\x04', 30],
      ['PK\x05\x06', 22],
      ['PK\x07\x08', 16],
    ] as const) {
      const starts: number[] = []
      for (
        let at = Buffer.from(record).indexOf(mark, 0, 'latin1');
        at >= 0;
        at = Buffer.from(record).indexOf(mark, at + 1, 'latin1')
      )
        starts.push(at)
      if (mark === 'PK\x01\x02') for (const at of starts) madeBy.add(at + 4).add(at + 5)
      // The first and the last of each, and the photo's, which has a descriptor.
      for (const at of [starts[0]!, starts.at(-1)!]) for (let i = 0; i < fixed; i++) headers.push(at + i)
    }
    const missed: number[] = []
    for (const at of headers) {
      if (madeBy.has(at)) continue
      const damaged = record.slice()
      damaged[at]! ^= 1
      if ((await verify(damaged)).holds) missed.push(at)
    }
    expect(missed).toEqual([])
  })

  test('[L42] of chance, in hundreds of places, never ends the check without a finding', async () => {
    let seed = 7
    for (let turn = 0; turn < 300; turn++) {
      seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31
      const at = seed % record.length
      const damaged = record.slice()
      damaged[at]! ^= 1 + (seed % 255)
      const verdict = await verify(damaged)
      const madeBy = [4, 5].some(
        (o) => Buffer.from(record.slice(at - o, at - o + 4)).toString('latin1') === 'PK\x01\x02',
      )
      if (!madeBy) expect([at, verdict.holds]).toEqual([at, false])
    }
  })
})

test('[L41] each code that there is was found at least once, here or by the rows of time stamps', () => {
  const stamps = new Set(STAMP_ROWS.flatMap(({ expect: wanted }) => wanted.map(([code]) => code)))
  expect(FINDING_CODES.filter((code) => !found.has(code) && !stamps.has(code))).toEqual([])
})

test('[L41] each row names the checkers that must find it: all that concerns the log, all three', () => {
  const rows = [...ROWS, ...STAMP_ROWS]
  expect(new Set(rows.map(({ damage }) => damage)).size).toBe(rows.length)
  expect(ROWS.filter(({ by }) => by.includes('spec-checker')).length).toBeGreaterThanOrEqual(60)
  expect(rows.every(({ by }) => by.includes('verify') && by.includes('verify.html'))).toBe(true)
})
