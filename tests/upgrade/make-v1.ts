/**
 * Made tests/upgrade/v1, once, with the program as it was at version 1: a data folder's contents after a short day, its
 * database as the statements that made it and its rows as JSON (a folder of PostgreSQL's own files is bound to one
 * machine's architecture). It refuses to write over anything.
 */
import { cpSync, existsSync, mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { toHex } from '../../api/domain/log/encoding.ts'
import { createPhotoFiles } from '../../api/server/photo/photo-files.ts'
import { random } from '../../api/server/senses.ts'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createChance } from '../kit/chance.ts'
import { MASTER_KEY, openHouse } from '../kit/house.ts'
import { createPhone, createWire } from '../kit/phone.ts'
import { openTestDatabase } from '../kit/postgres.ts'

const FOLDER = fileURLToPath(new URL('./v1', import.meta.url))
if (existsSync(FOLDER)) throw new Error('version 1 is frozen: it is never made again')
mkdirSync(FOLDER)

const database = await openTestDatabase()
const { raw } = database.clients
const stores = createPostgresStore(database.clients)
let now = Date.UTC(2026, 3, 21, 12, 0, 0)
const clock = () => {
  now += 1_000
  return now
}
const chance = { ...createChance(1), bytes: random }
const photos = createPhotoFiles(path.join(FOLDER, 'photos'))
const house = await openHouse({ chance, now: clock, stores, photos })
const phone = createPhone({
  chance,
  now: clock,
  wire: createWire(async (r) => house.app.fetch(r)),
  seed: new Uint8Array(32).fill(9),
})
await phone.setUp(await house.setUpCode())
const job = uuidV7(clock(), random)
const load = uuidV7(clock(), random)
await phone.log(job, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
await phone.log(job, 'concrete.ordered', { yards: { is: 'given', text: '8', unit: 'yd3' } })
await phone.log(job, 'load.arrived', { load })
await syncRound(phone)
await phone.log(job, 'water.added', { load, amount: { is: 'none' } })
const slump = await phone.log(job, 'slump.measured', {
  load,
  slump: { is: 'given', text: '5', unit: 'in' },
  how: 'cone',
})
await phone.log(
  job,
  'slump.measured',
  { load, slump: { is: 'given', text: '4 1/4', unit: 'in' }, how: 'cone' },
  { corrects: [slump], why: { lang: 'en', text: 'misread the tape' } },
)
const bytes = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])
const photo = await keepPhoto(phone, bytes, 'image/jpeg')
await phone.log(
  job,
  'photo.taken',
  { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket', load },
  { evidence: [photo] },
)
await phone.log(job, 'role.changed' as never, { person: uuidV7(clock(), random), role: 'owner' } as never)
await syncRound(phone)
await house.app.request('/api/jobs')

const tables = await raw<{ name: string }[]>`
  select tablename as name from pg_tables where schemaname = 'public' order by tablename`
const rows: Record<string, unknown> = {}
for (const { name } of tables)
  rows[name] = (await raw`select coalesce(json_agg(t), '[]') as rows from ${raw(name)} t`)[0]!.rows
rows['drizzle.__drizzle_migrations'] = (
  await raw`select json_agg(t) as rows from drizzle.__drizzle_migrations t`
)[0]!.rows
writeFileSync(path.join(FOLDER, 'rows.json'), `${JSON.stringify(rows, null, 1)}\n`)
writeFileSync(path.join(FOLDER, 'master.key'), `${toHex(MASTER_KEY)}\n`)
cpSync(
  fileURLToPath(new URL('../../db/migrations/0000_first.sql', import.meta.url)),
  path.join(FOLDER, 'tables.sql'),
)
writeFileSync(path.join(FOLDER, 'expected.json'), `${JSON.stringify({ job, load, photo, slump }, null, 1)}\n`)
await house.close()
await stores.end()
await database.close()
