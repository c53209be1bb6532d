import { NO_MEMBERS } from '../../api/domain/access/members.ts'
import { equalBytes, readHex, toBase64, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import { jobModel } from '../../api/domain/record/job-model.ts'
import { sha256 } from '../../api/server/senses.ts'
import { phoneEntries } from '../../web/sync/entries.ts'
import { getMeta, type LogLeaf, type OwnEntry } from '../../web/sync/kept.ts'
import type { SimPhone, Simulated } from './simulate.ts'

/** Every promise that a run broke, as sentences; none where it held. Bodies are compared, not only ids. */
export const oracle = async (run: Simulated): Promise<string[]> => {
  const broken: string[] = []
  const say = (sentence: string) => broken.push(sentence)
  const size = (await run.store.company(run.company))!.frontier.size
  const server = []
  for (let from = 0; from < size; ) {
    const { leaves } = await run.store.page(run.company, from, 500)
    server.push(...leaves)
    from += leaves.length
  }
  if (server.length !== size) say(`the log says ${size} leaves and holds ${server.length}`)
  const byHash = new Map(server.map((leaf) => [leaf.entryHash, leaf]))
  if (byHash.size !== server.length) say('an entry stands twice in the log')
  if (new Set(server.map((leaf) => leaf.id)).size !== server.length) say('an id stands twice in the log')
  const hashes = server.map((leaf) => leaf.leafHash)
  for (const { size: then, root } of run.checkpoints) {
    const now = rootOf(appendAll(EMPTY_FRONTIER, hashes.slice(0, then), sha256), sha256)
    if (toBase64(now) !== root)
      say(`a checkpoint of size ${then} that a phone believed is off the final tree`)
  }
  checkServersOwn(server, byHash, say)
  for (const phone of run.phones) await checkPhone(run, phone, server, byHash, say)
  await checkFigures(run, say)
  return broken
}

/** What the server says by itself, it says once, and never that it refused what it holds. */
const checkServersOwn = (
  server: Leaves,
  byHash: ReadonlyMap<string, Leaves[number]>,
  say: (sentence: string) => void,
): void => {
  const said = new Set<string>()
  for (const leaf of server) {
    if (leaf.kind !== 'entry.refused' && leaf.kind !== 'photo.received') continue
    const { body } = JSON.parse(new TextDecoder().decode(leaf.bytes)) as {
      body: { hash?: string; photo?: string }
    }
    const about = `${leaf.kind} ${leaf.job} ${body.hash ?? body.photo}`
    if (said.has(about)) say(`the server said twice: ${about}`)
    said.add(about)
    if (body.hash !== undefined && byHash.has(body.hash))
      say(`the server noted as refused what it holds: ${body.hash}`)
  }
}

type Leaves = Awaited<ReturnType<Simulated['store']['page']>>['leaves']

const checkPhone = async (
  run: Simulated,
  phone: SimPhone,
  server: Leaves,
  byHash: ReadonlyMap<string, Leaves[number]>,
  say: (sentence: string) => void,
): Promise<void> => {
  const { own, log, evidence, identity } = await phone.store.transact(async (tx) => ({
    own: await tx.list<OwnEntry>('own'),
    log: await tx.list<LogLeaf>('log'),
    evidence: await getMeta(tx, 'evidence'),
    identity: await getMeta(tx, 'identity'),
  }))
  const mine = new Map(own.map((entry) => [entry.hash, entry]))
  for (const hash of phone.said) if (!mine.has(hash)) say(`${phone.name} called ${hash} kept and lost it`)
  for (const entry of own) {
    const leaf = byHash.get(entry.hash)
    if (entry.state.is === 'refused') {
      if (leaf) say(`${phone.name}: a refused entry is in the log`)
    } else if (entry.state.is !== 'kept') say(`${phone.name}: an entry is still ${entry.state.is}`)
    else if (!leaf) say(`${phone.name}: an acknowledged entry is not in the log`)
    else {
      if (leaf.position !== entry.state.position)
        say(`${phone.name}: an entry moved after it was acknowledged`)
      if (!leaf.bytes || !equalBytes(leaf.bytes, toUtf8(entry.text)))
        say(`${phone.name}: an entry was altered`)
    }
  }
  const places = own.flatMap((e) => (e.state.is === 'kept' ? [e.state.position] : []))
  if (places.some((place, i) => i > 0 && place <= places[i - 1]!))
    say(`${phone.name}: its entries changed their order`)
  if (own.some((e) => e.epoch !== 1)) say(`${phone.name} went into a new epoch, though nobody copied it`)
  const same =
    log.length === server.length &&
    log.every((l, i) => l.leaf === toBase64(server[i]!.leaf) && l.text !== null)
  if (!same) say(`${phone.name}: its copy of the log differs from the server's`)
  if (evidence?.length) say(`${phone.name} has evidence of ${evidence[0]!.code}, though nobody lied`)
  const stored = await run.store.deviceLeaves(run.company, identity!.device, 1, own.length + 1)
  if (stored.join() !== own.map((e) => e.hash).join()) say(`${phone.name}: the server has another device log`)
  for (const [hash, bytes] of phone.photos) {
    const kept = await run.photoBytes(hash)
    if (kept && !equalBytes(kept, bytes)) say(`${phone.name}: a photo was altered`)
    if (!kept) say(`${phone.name}: a photo that it called kept is not on the server`)
    if (toHex(sha256(bytes)) !== hash) say('a photo has another hash than its bytes')
  }
  const heads = (await run.store.heads(run.company)).filter((h) => h.device === identity!.device)
  if (heads.some((h) => h.disputed)) say(`${phone.name}: a head is disputed, though nobody copied it`)
  for (const head of heads) {
    const at = rootOf(
      appendAll(
        EMPTY_FRONTIER,
        stored.slice(0, head.size).map((h) => readHex(h)!),
        sha256,
      ),
      sha256,
    )
    if (!equalBytes(at, head.root)) say(`${phone.name}: a stored head is off its device's log`)
  }
}

/** Both phones come to the same figures. */
const checkFigures = async (run: Simulated, say: (sentence: string) => void): Promise<void> => {
  const models = await Promise.all(
    run.phones.map(async ({ store, phone }) => {
      const { logged } = await store.transact((tx) => phoneEntries(tx, phone.sha256))
      const entries = logged.filter((e) => 'entry' in e && e.entry.job === run.job)
      return JSON.stringify(jobModel({ job: run.job, entries, members: NO_MEMBERS }))
    }),
  )
  if (new Set(models).size > 1) say('the phones come to different figures')
}
