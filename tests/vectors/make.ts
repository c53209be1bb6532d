/**
 * Made tests/vectors/v1, once. It refuses to write over anything: a released vector is never edited again, and a format
 * that changes gets a new version and a new folder.
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Happening } from '../../api/domain/entry/make.ts'
import { makeEntry } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { writeCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { companyOrigin, deviceOrigin, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex, toBase64, toHex } from '../../api/domain/log/encoding.ts'
import { signNote, writeVerifierKey } from '../../api/domain/log/note.ts'
import { consistencyProof, inclusionProof, subtrees } from '../../api/domain/log/proof.ts'
import { writeConsistency, writeTlogProof } from '../../api/domain/log/proof-file.ts'
import { slipWords, writeSlip } from '../../api/domain/log/slip.ts'
import { extendThread, newThread } from '../../api/domain/log/thread.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import { signingKey } from '../../api/server/keys.ts'
import { sha256 } from '../../api/server/senses.ts'
import { createChance } from '../kit/chance.ts'

const FOLDER = fileURLToPath(new URL('./v1', import.meta.url))
const write = (name: string, content: string | Uint8Array): void => {
  const file = path.join(FOLDER, name)
  if (existsSync(file)) throw new Error(`${name} is released: it is never written again`)
  mkdirSync(path.dirname(file), { recursive: true })
  writeFileSync(file, content)
}

const chance = createChance(20260421)
const COMPANY = '019dafe9-0000-7000-8000-000000000001'
const JOB = '019dafe9-0000-7000-8000-000000000002'
const LOAD = '019dafe9-0000-7000-8000-000000000003'
const PERSON = '019dafe9-0000-7000-8000-000000000004'
const DEVICE = '019dafe9-0000-7000-8000-000000000005'
const SERVER = '019dafe9-0000-8000-8000-000000000006'
const BOOT = '019dafe9-0000-7000-8000-000000000007'
const PHOTO = toHex(sha256(new Uint8Array([0xff, 0xd8, 0xff])))
const origin = companyOrigin(COMPANY)
const seeds = { log: 'a1'.repeat(32), device: 'b2'.repeat(32), server: 'c3'.repeat(32) }
const logKey = signingKey(readHex(seeds.log)!)
const deviceKey = signingKey(readHex(seeds.device)!)
const serverKey = signingKey(readHex(seeds.server)!)

const bodies: { [K in Kind]?: Happening<K>['body'] } = {
  'company.founded': {
    name: 'Brindlefork Flatwork',
    zone: 'America/Chicago',
    origin,
    logKey: toBase64(logKey.publicKey),
  },
  'device.enrolled': { device: DEVICE, person: PERSON, key: toBase64(deviceKey.publicKey), use: 'phone' },
  'owner.named': { person: PERSON, name: 'Curt' },
  'person.added': { person: '019dafe9-0000-7000-8000-000000000008', name: 'Marisol', role: 'crew' },
  'role.changed': { person: '019dafe9-0000-7000-8000-000000000008', role: 'foreman' },
  'device.withdrawn': { device: '019dafe9-0000-7000-8000-000000000009' },
  'entry.refused': { hash: 'ab'.repeat(32), device: DEVICE, code: 'id-taken' },
  'job.opened': { name: 'Tern Court — entrada', zone: 'America/Chicago' },
  'concrete.ordered': { yards: { is: 'given', text: '18 1/2', unit: 'yd3' } },
  'ticket.recorded': {
    load: LOAD,
    number: { is: 'given', text: '71340' },
    truck: { is: 'given', text: '218' },
    yards: { is: 'given', text: '8.00', unit: 'yd3' },
    batchedAt: { is: 'given', at: '2026-04-21T07:05-05:00' },
    limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
  },
  'load.arrived': { load: LOAD },
  'discharge.started': { load: LOAD },
  'discharge.ended': { load: LOAD },
  'load.left': { load: LOAD },
  'water.added': { load: LOAD, amount: { is: 'none' } },
  'slump.measured': { load: LOAD, slump: { is: 'given', text: '4 1/4', unit: 'in' }, how: 'cone' },
  'photo.taken': { photo: PHOTO, bytes: 3, type: 'image/jpeg', shows: 'ticket', load: LOAD },
  'photo.received': { photo: PHOTO, bytes: 3 },
  'remark.made': { remark: { lang: 'es', text: 'ya vació “la olla”\n</script> 𝄞' }, load: LOAD },
  'entry.withdrawn': {},
}
const SERVER_KINDS = new Set<Kind>([
  'company.founded',
  'device.enrolled',
  'owner.named',
  'entry.refused',
  'photo.received',
])
const COMPANY_KINDS = new Set<Kind>([
  'person.added',
  'role.changed',
  'device.withdrawn',
  'company.founded',
  'device.enrolled',
  'owner.named',
  'entry.refused',
])

const entries: { kind: Kind; hash: string; bytes: Uint8Array }[] = []
for (const [i, kind] of (Object.keys(bodies) as Kind[]).entries()) {
  const server = SERVER_KINDS.has(kind)
  const now = Date.UTC(2026, 3, 21, 12, 33, i)
  const at = `2026-04-21T07:33:${String(i).padStart(2, '0')}.000-05:00`
  const bytes = makeEntry(
    {
      job: COMPANY_KINDS.has(kind) ? COMPANY : JOB,
      kind,
      body: bodies[kind],
      occurredAt: at,
      source: server ? 'server' : 'tap',
      ...(kind === 'photo.taken' ? { evidence: [PHOTO] } : {}),
      ...(kind === 'entry.withdrawn'
        ? { corrects: [entries.at(-1)!.hash], why: { lang: 'en', text: 'wrong load' } }
        : {}),
    } as Happening<Kind>,
    {
      device: server ? SERVER : DEVICE,
      by: server ? { known: 'server' } : { known: 'own-device', person: PERSON },
      boot: BOOT,
    },
    { now, recordedAt: at, mono: 1000 * i },
    chance.bytes,
  )
  entries.push({ kind, hash: hashEntry(bytes, sha256), bytes })
  write(`entries/${kind}.json`, bytes)
}

const ends = new Map([
  [COMPANY, newThread(chance.bytes(16))],
  [JOB, newThread(chance.bytes(16))],
])
const leaves = entries.map(({ kind, hash }, i) => {
  const thread = COMPANY_KINDS.has(kind) ? COMPANY : JOB
  const next = extendThread(ends.get(thread)!, readHex(hash)!, Date.UTC(2026, 3, 21, 12, 40, i, 125), sha256)
  ends.set(thread, next.end)
  return { kind, leaf: toHex(next.bytes), leafHash: toHex(next.leafHash) }
})
const hashes = leaves.map((leaf) => readHex(leaf.leafHash)!)
const rootAt = (size: number) => rootOf(appendAll(EMPTY_FRONTIER, hashes.slice(0, size), sha256), sha256)
const size = hashes.length
const OLD = 7
const noteKey = { name: origin, publicKey: logKey.publicKey }
const checkpoint = await signNote(
  writeCheckpoint({ origin, size, root: rootAt(size) }),
  noteKey,
  logKey.sign,
  sha256,
)
write('log.vkey', `${writeVerifierKey(noteKey, sha256)}\n`)
write('checkpoint.note', checkpoint)
write(
  'last.tlog-proof',
  writeTlogProof({
    index: size - 1,
    path: inclusionProof(size - 1, size, subtrees(hashes, sha256)),
    note: checkpoint,
  }),
)
write(
  `${OLD}.consistency`,
  writeConsistency({
    old: { size: OLD, root: rootAt(OLD) },
    new: { size, root: rootAt(size) },
    path: consistencyProof(OLD, size, subtrees(hashes, sha256)),
  }),
)

const own = entries.filter(({ kind }) => !SERVER_KINDS.has(kind)).map((e) => readHex(e.hash)!)
const name = deviceOrigin(origin, DEVICE, 1)
const head = await signNote(
  writeHead({
    origin: name,
    size: own.length,
    root: rootOf(appendAll(EMPTY_FRONTIER, own, sha256), sha256),
    seen: { size: OLD, root: rootAt(OLD) },
    clock: { at: '2026-04-21T07:41:10.250-05:00', boot: BOOT, mono: 480_250 },
  }),
  { name, publicKey: deviceKey.publicKey },
  deviceKey.sign,
  sha256,
)
write('device.head', head)
write(
  'author.tlog-proof',
  writeTlogProof({ index: 3, path: inclusionProof(3, own.length, subtrees(own, sha256)), note: head }),
)

const jobEnd = ends.get(JOB)!
const slip = { origin, head: { size, root: rootAt(size) }, count: jobEnd.count, last: jobEnd.last }
write('slip.txt', writeSlip(slip))
write(
  'vectors.json',
  `${JSON.stringify(
    {
      seeds,
      serverKey: toBase64(serverKey.publicKey),
      entries: entries.map(({ kind, hash }) => ({ kind, hash })),
      leaves,
      roots: Array.from({ length: size + 1 }, (_, n) => toHex(rootAt(n))),
      slipWords: slipWords(slip, sha256),
    },
    null,
    1,
  )}\n`,
)
