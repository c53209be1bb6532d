import { describe, expect, test } from 'vitest'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { toBase64 } from '../../api/domain/log/encoding.ts'
import type { RecordModel } from '../../api/domain/record/model.ts'
import { pageLines, pageOf } from '../../api/domain/record/page/page.ts'
import { chooseHeads } from '../../api/server/record/choose-heads.ts'
import type { DeviceLeafRow, HeadRow, LeafRow } from '../../db/log-store/log-store.ts'
import { makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'
import { said, textOf, unpack, verifyAll } from './record-kit.ts'
import { keyOf, takePush } from './scripted-log.ts'

const PHONE = '019daf7f-2a80-766f-82a2-000000000001'
const head = (more: Partial<HeadRow>): HeadRow => ({
  device: PHONE,
  epoch: 1,
  size: 1,
  root: new Uint8Array(32),
  note: '',
  atSize: 10,
  receivedAt: 100,
  disputed: false,
  ...more,
})
const leaf = (entryHash: string): LeafRow => ({
  position: 0,
  leaf: new Uint8Array(97),
  leafHash: new Uint8Array(32),
  entryHash,
  id: '',
  job: '',
  count: 1,
  kind: '',
  device: PHONE,
  receivedAt: 0,
  bytes: undefined,
})
const place = (entryHash: string, epoch: number, index: number): DeviceLeafRow => ({
  device: PHONE,
  epoch,
  index,
  entryHash,
})
const chosen = (places: DeviceLeafRow[], heads: HeadRow[], made = 100) =>
  chooseHeads([leaf('a')], places, heads, 10, made).map(({ row, entries }) => ({
    epoch: row.epoch,
    size: row.size,
    note: row.note,
    index: entries[0]?.index,
  }))

describe('the head under which an entry is proven', () => {
  test('[L27] is the newest that its device had signed as of the checkpoint', () => {
    const heads = [head({ size: 2, atSize: 8 }), head({ size: 5, atSize: 9 }), head({ size: 9, atSize: 11 })]
    expect(chosen([place('a', 1, 0)], heads)).toMatchObject([{ size: 5, index: 0 }])
  })

  test('[L38] is none that came after the checkpoint without adding a leaf, and the first taken of its size', () => {
    const heads = [
      head({ size: 5, note: 'first' }),
      head({ size: 5, note: 'again', receivedAt: 101 }),
      head({ size: 6, receivedAt: 101 }),
    ]
    expect(chosen([place('a', 1, 0)], heads)).toMatchObject([{ size: 5, note: 'first' }])
  })

  test('[L25] is never one that contradicts what was taken before', () => {
    expect(chosen([place('a', 1, 0)], [head({ size: 3 }), head({ size: 8, disputed: true })])).toMatchObject([
      { size: 3 },
    ])
  })

  test('[L25] of an entry in two epochs is that of the earlier one, unless that head does not reach it', () => {
    const heads = [head({ epoch: 1, size: 1 }), head({ epoch: 2, size: 1 })]
    expect(chosen([place('a', 2, 0), place('a', 1, 0)], heads)).toMatchObject([{ epoch: 1 }])
    expect(chosen([place('a', 2, 0), place('a', 1, 1)], heads)).toMatchObject([{ epoch: 2 }])
  })
})

describe('what a record quotes and holds', () => {
  test('[L43] quotes no device and no person that has no part in the job', async () => {
    const good = await makeGoodLog({ words: 'bystander' })
    const { server } = good.devices
    const bystander = good.make('remark.made', { remark: { lang: 'en', text: 'x' } }, '05:40')
    const enrolment = JSON.parse(new TextDecoder().decode(good.log.leaves[6]!.bytes))
    const key = toBase64(keyOf('bystander').publicKey)
    const other = {
      ...enrolment,
      id: JSON.parse(new TextDecoder().decode(bystander)).id,
      body: { ...enrolment.body, device: PHONE, key },
    }
    await takePush(good.log, {
      device: server,
      entries: [new TextEncoder().encode(JSON.stringify(other))],
      receivedAt: Date.UTC(2026, 3, 21, 17),
      seen: 33,
      boot: enrolment.boot,
    })
    const verdict = await verifyAll(await recordBytes(good))
    expect([said(verdict), verdict.checked.quoted]).toEqual([[], 7])
  })

  test('[L43] quotes a person who logged nothing but is named in the job: who asked for the water', async () => {
    const good = await makeGoodLog({ words: 'named' })
    const beto = good.log.leaves
      .map(({ bytes }) => JSON.parse(new TextDecoder().decode(bytes!)))
      .find(({ kind, body }) => kind === 'person.added' && body.name === 'Beto')
    await good.pushMore(
      good.make(
        'water.added',
        { load: beto.id, amount: { is: 'none' }, asked: { person: beto.body.person } },
        '11:30',
      ),
    )
    const record = await unpack(await recordBytes(good))
    expect(
      (JSON.parse(textOf(record, 'record.json')) as RecordModel).people.map(({ name }) => name),
    ).toContain('Beto')
  })

  test('[L41.9] holds no photo whose arrival the log does not know, and the page says so', async () => {
    const good = await makeGoodLog({ words: 'unreceived' })
    const size = good.log.checkpoints.findLast((c) => c.size <= 19)!.size
    const record = await recordBytes(good, { checkpointSize: size })
    const files = await unpack(record)
    expect([...files.keys()].filter((name) => name.startsWith('photos/'))).toEqual([])
    expect(pageLines(pageOf(JSON.parse(textOf(files, 'record.json')))).join('\n')).toContain(
      'its file had not reached the server',
    )
    expect(said(await verifyAll(record))).toEqual([])
  })

  test.each([
    ['lost', undefined],
    ['spoilt', new Uint8Array([1, 2, 3])],
  ])(
    '[L41.9] with a photo %s in its store comes out all the same, and both page and checker tell',
    async (_, bytes) => {
      const good = await makeGoodLog()
      const photos = new Map(bytes ? [[[...good.photos.keys()][0]!, bytes]] : [])
      const record = await recordBytes({ ...good, photos })
      const files = await unpack(record)
      expect(pageLines(pageOf(JSON.parse(textOf(files, 'record.json')))).join('\n')).toContain(
        'received by the server; not in this record',
      )
      expect(said(await verifyAll(record))).toEqual(['photo-missing entries/000005.json'])
    },
  )

  test('[L41.6] knows no device that a phone, and not the server, enrolled', async () => {
    const good = await makeGoodLog({ words: 'rogue' })
    const { phone } = good.devices
    const key = keyOf('rogue')
    const text = (bytes: Uint8Array | undefined) => JSON.parse(new TextDecoder().decode(bytes))
    const ids = ['05:50', '05:51'].map(
      (time) => text(good.make('remark.made', { remark: { lang: 'en', text: 'x' } }, time)).id,
    )
    const enrolment = text(good.log.leaves[6]!.bytes)
    const rogue = {
      ...enrolment,
      id: ids[0],
      device: phone.id,
      body: { ...enrolment.body, device: PHONE, key: toBase64(key.publicKey) },
    }
    const remark = {
      ...text(good.make('remark.made', { remark: { lang: 'en', text: 'I was here.' } }, '11:25')),
      id: ids[1],
      device: PHONE,
    }
    const bytes = (entry: object) => new TextEncoder().encode(canonicalJson(entry))
    const receivedAt = Date.UTC(2026, 3, 21, 17)
    await takePush(good.log, {
      device: phone,
      entries: [bytes(rogue)],
      receivedAt,
      seen: 33,
      boot: enrolment.boot,
    })
    await takePush(good.log, {
      device: { id: PHONE, key, epoch: 1 },
      entries: [bytes(remark)],
      receivedAt,
      seen: 33,
      boot: enrolment.boot,
    })
    const enrolled = good.log.leaves.at(-2)!.entryHash
    expect(said(await verifyAll(await recordBytes(good)))).toEqual([
      `author-differs company/${enrolled}.json`,
      `device-unknown company/${enrolled}.json`,
      'device-unknown entries/000024.json',
    ])
  })

  test('[L41.1] names nothing else where the server’s own device is not at the log’s index 1', async () => {
    const good = await makeGoodLog({ words: 'late server', lateServer: true })
    expect((await verifyAll(await recordBytes(good))).findings.map((f) => f.code)).toContain('device-unknown')
  })
})
