import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readHex, toHex } from '../../api/domain/log/encoding.ts'
import { writeVerifierKey } from '../../api/domain/log/note.ts'
import type { JobModel } from '../../api/domain/record/job-model.ts'
import { toLocalTime } from '../../api/domain/time.ts'
import { keysFrom } from '../../api/server/keys.ts'
import { createPhotoFiles } from '../../api/server/photo/photo-files.ts'
import { random, sha256 } from '../../api/server/senses.ts'
import { runMigrations } from '../../db/connect/migrate.ts'
import { openClient } from '../../db/connect/target.ts'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import { getMeta, putMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createChance } from '../kit/chance.ts'
import { type House, openHouse } from '../kit/house.ts'
import { createPhone, createWire, type Phone, ZONE } from '../kit/phone.ts'
import { openBareDatabase, type TestDatabase } from '../kit/postgres.ts'

const FROZEN = fileURLToPath(new URL('./v1', import.meta.url))
const read = (name: string) => readFileSync(path.join(FROZEN, name), 'utf8')
const expected: { job: string; load: string; photo: string; slump: string } = JSON.parse(
  read('expected.json'),
)
const rows: Record<string, object[]> = JSON.parse(read('rows.json'))
const company = String((rows.companies![0] as { company: string }).company)
const origin = String((rows.companies![0] as { origin: string }).origin)
const chance = { ...createChance(1), bytes: random }
const folder = mkdtempSync(path.join(tmpdir(), 'upgrade-'))
let database: TestDatabase
let stores: ReturnType<typeof createPostgresStore>
let house: House
let phone: Phone

beforeAll(async () => {
  database = await openBareDatabase()
  const client = openClient(database.target, { max: 1 })
  for (const statement of read('tables.sql').split('--> statement-breakpoint')) await client.unsafe(statement)
  await client.unsafe('create schema drizzle')
  await client.unsafe(
    'create table drizzle.__drizzle_migrations (id serial primary key, hash text not null, created_at bigint)',
  )
  for (const [table, all] of Object.entries(rows))
    await client.unsafe(
      `insert into ${table} select * from json_populate_recordset(null::${table}, $1::text::json)`,
      [JSON.stringify(all)],
    )
  // As a dump does it: the next migration takes the number after those that were loaded.
  await client.unsafe(
    `select setval('drizzle.__drizzle_migrations_id_seq', (select max(id) from drizzle.__drizzle_migrations))`,
  )
  await client.end()
  // From here on it is today's program that opens what version 1 left.
  await runMigrations(database.target)
  stores = createPostgresStore(database.clients)
  cpSync(path.join(FROZEN, 'photos'), folder, { recursive: true })
  house = await openHouse({ chance, now: Date.now, stores, photos: createPhotoFiles(folder) })
  phone = createPhone({
    chance,
    now: Date.now,
    wire: createWire(async (r) => house.app.fetch(r)),
    seed: new Uint8Array(32).fill(9),
  })
  const state = await stores.log.heads(company)
  const device = state.find(
    (head) =>
      head.note.includes(origin) &&
      head.device !== keysFrom(readHex(read('master.key').trim())!)(origin).device.id,
  )!.device
  const { log } = keysFrom(readHex(read('master.key').trim())!)(origin)
  // The phone of then has lost its storage, but not its key: it takes the whole log anew and checks it.
  await phone.store.transact((tx) =>
    putMeta(tx, 'identity', {
      company,
      origin,
      device,
      zone: ZONE,
      name: 'Curt',
      person: String((rows.leaves as { kind: string; bytes: string }[]).flatMap(personIn)[0]),
      logKey: writeVerifierKey(log.noteKey, sha256),
    }),
  )
})

const personIn = ({ kind, bytes }: { kind: string; bytes: string }): string[] =>
  kind === 'owner.named' ? [JSON.parse(Buffer.from(bytes.slice(2), 'hex').toString()).body.person] : []

afterAll(async () => {
  await house?.close()
  await stores?.end()
  await database?.close()
  rmSync(folder, { recursive: true, force: true })
})

test('[upgrade] the log of version 1 is verified leaf by leaf by today’s phone', async () => {
  const round = await syncRound(phone)
  expect(round).toMatchObject({ is: 'synced', pull: { is: 'pulled' } })
  const log = await phone.store.transact((tx) => getMeta(tx, 'company-log'))
  expect(log?.frontier.size).toBe(rows.leaves!.length)
})

test('[upgrade] its figures, its correction and its photo are there', async () => {
  const answer = await phone.wire({ method: 'GET', path: `/api/jobs/${expected.job}` })
  const { model } = JSON.parse(new TextDecoder().decode(answer.body)) as { model: JobModel }
  expect(model.name[0]?.text).toBe('Tern Court')
  expect(model.changes).toHaveLength(1)
  const photo = await phone.wire({ method: 'GET', path: `/api/photos/${expected.photo}` })
  expect(toHex(sha256(photo.body))).toBe(expected.photo)
})

test('[upgrade] it goes on: a new phone’s entries extend the same log under the same key', async () => {
  const before = (await stores.log.company(company))!.frontier.size
  // A lost storage begins its device's log anew: the server sees a fork, and the next epoch takes it.
  await phone.log(
    expected.job,
    'load.left',
    { load: expected.load },
    { occurredAt: toLocalTime(Date.now(), ZONE) },
  )
  const round = await syncRound(phone)
  expect(round).toMatchObject({ is: 'synced', push: { is: 'pushed' } })
  expect((await stores.log.company(company))!.frontier.size).toBe(before + 1)
})
