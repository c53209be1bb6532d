import { beforeAll, expect, test } from 'vitest'
import type { ProblemBody } from '../../api/contract/problems.ts'
import { readCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { toBase64, toUtf8 } from '../../api/domain/log/encoding.ts'
import { openNote, readVerifierKey } from '../../api/domain/log/note.ts'
import { verifyConsistency } from '../../api/domain/log/proof.ts'
import { readConsistency } from '../../api/domain/log/proof-file.ts'
import { readSlip, type Slip, slipWords } from '../../api/domain/log/slip.ts'
import { SLIP_WORDS } from '../../api/domain/log/slip-words.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import { syncRound } from '../../web/sync/round.ts'
import { JOB, jsonOf, LOAD, openSite, problemOf, type Site } from './site.ts'

let site: Site
let slip: Slip
let text: string
let words: string[]

beforeAll(async () => {
  site = await openSite({ seed: 11 })
  const { phone } = site.owner
  await phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  await phone.log(JOB, 'load.arrived', { load: LOAD })
  await syncRound(phone)
  const answer = jsonOf(await phone.wire({ method: 'GET', path: `/api/jobs/${JOB}/slip` }))
  ;({ slip: text, words } = answer as { slip: string; words: string[] })
  const read = readSlip(toUtf8(text))
  if (!read.ok) throw new Error(read.problem.code)
  slip = read.value
  // The pour goes on after the slip was handed out.
  for (let i = 0; i < 5; i++) {
    await phone.log(JOB, 'remark.made', { remark: { lang: 'es', text: `Vuelta ${i}` } })
    await syncRound(phone)
  }
})

/** As a stranger asks: no session. */
const check = (query: Readonly<Record<string, string>>) =>
  site.nobody({ method: 'GET', path: `/api/slip?${new URLSearchParams(query)}` })
const queryOf = ({ origin, head }: Slip) => ({
  origin,
  size: String(head.size),
  root: toBase64(head.root),
})

test('[L35] a slip says where the job’s thread stood, in text and in eight words of the list', async () => {
  expect(slip.origin).toBe(site.owner.identity.origin)
  expect(slip.count).toBe(2)
  const thread = await site.stores.log.thread(site.company, JOB)
  expect(slip.last).toEqual(thread[1]!.leafHash)
  expect(slip.head.root).toEqual((await site.stores.log.checkpointAt(site.company, slip.head.size))!.root)
  expect(words).toEqual(slipWords(slip, sha256))
  expect(words.length).toBe(8)
  for (const word of words) expect(SLIP_WORDS).toContain(word)
})

test('[L35] one other letter in a slip gives other words', () => {
  expect(slipWords({ ...slip, count: 1 }, sha256)).not.toEqual(words)
  expect(slipWords({ ...slip, head: { ...slip.head, size: slip.head.size + 1 } }, sha256)).not.toEqual(words)
})

test('[L36] an honest slip, checked later by anyone, is shown to be extended by the log', async () => {
  const answer = await check(queryOf(slip))
  expect(answer.status).toBe(200)
  const { checkpoint, logKey, consistency } = jsonOf(answer) as Record<string, string>
  const key = readVerifierKey(logKey!, sha256)
  if (!key.ok) throw new Error('not a key')
  expect(logKey).toBe(site.owner.identity.logKey)
  const note = await openNote(toUtf8(checkpoint!), [key.value], { sha256, verify: verifySignature })
  const head = note.ok ? readCheckpoint(note.value) : note
  const file = readConsistency(toUtf8(consistency!))
  if (!head.ok || !file.ok) throw new Error('not read')
  expect(head.value.size).toBe(await site.size())
  expect(file.value.old).toEqual(slip.head)
  expect(file.value.new).toEqual({ size: head.value.size, root: head.value.root })
  const claim = {
    oldSize: slip.head.size,
    oldRoot: slip.head.root,
    newSize: head.value.size,
    newRoot: head.value.root,
    path: file.value.path,
  }
  expect(verifyConsistency(claim, sha256)).toBe(true)
  const otherRoot = slip.head.root.with(0, slip.head.root[0]! ^ 1)
  expect(verifyConsistency({ ...claim, oldRoot: otherRoot }, sha256)).toBe(false)
})

test('[L36] every size that the log had can be asked about, and proves', async () => {
  const size = await site.size()
  for (let old = 1; old <= size; old++) {
    const hashes = await site.stores.log.leafHashes(site.company, old)
    const root = rootOf(appendAll(EMPTY_FRONTIER, hashes, sha256), sha256)
    const answer = await check({ origin: slip.origin, size: String(old), root: toBase64(root) })
    const file = readConsistency(toUtf8((jsonOf(answer) as { consistency: string }).consistency))
    if (!file.ok) throw new Error('not read')
    const { path, new: newer } = file.value
    const claim = { oldSize: old, oldRoot: root, newSize: newer.size, newRoot: newer.root, path }
    expect(verifyConsistency(claim, sha256), `size ${old}`).toBe(true)
  }
})

test('[slips] a slip of another root, another size or no log reads the same: nothing is there', async () => {
  const honest = queryOf(slip)
  const otherRoot = toBase64(new Uint8Array(32).fill(3))
  const bodies: ProblemBody[] = []
  for (const query of [
    { ...honest, root: otherRoot },
    { ...honest, size: String(slip.head.size + 1) },
    { ...honest, size: '999999' },
    { ...honest, size: '0', root: '47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=' },
    { ...honest, origin: `screedbook/${JOB}` },
    { ...honest, origin: `screedbook-demo/${site.company}` },
    { ...honest, origin: 'screedbook/' },
    { ...honest, origin: site.company },
    { ...honest, origin: `${honest.origin}/${JOB}/1` },
  ]) {
    const answer = await check(query)
    expect(answer.status, JSON.stringify(query)).toBe(404)
    bodies.push(problemOf(answer))
  }
  expect(new Set(bodies.map((body) => JSON.stringify(body))).size).toBe(1)
})

test('[slips] a question out of form is told so', async () => {
  const honest = queryOf(slip)
  for (const query of [
    { origin: honest.origin, size: honest.size },
    { ...honest, size: '-1' },
    { ...honest, size: '01' },
    { ...honest, root: 'AAAA' },
    { ...honest, more: 'x' },
  ])
    expect(problemOf(await check(query)).code, JSON.stringify(query)).toBe('request-malformed')
})

test('[slips] the answer to a stranger holds proofs alone: no entry, id, name, device or job', async () => {
  const answer = await check(queryOf(slip))
  const said = new TextDecoder().decode(answer.body)
  expect(Object.keys(jsonOf(answer) as object).sort()).toEqual(['checkpoint', 'consistency', 'logKey'])
  const { leaves } = await site.stores.log.page(site.company, 0, 99)
  for (const leaf of leaves)
    for (const secret of [leaf.id, leaf.entryHash, leaf.device]) expect(said).not.toContain(secret)
  for (const secret of [JOB, 'Tern', 'Curt', 'Brindlefork', 'Chicago']) expect(said).not.toContain(secret)
})

test('[slips] a job that is not there, or of another company, has no slip', async () => {
  const lou = await site.found('Heron Creek Slabs', 'Lou')
  for (const [by, job] of [
    [site.owner, LOAD],
    [site.owner, '%00'],
    [lou, JOB],
  ] as const)
    expect((await by.phone.wire({ method: 'GET', path: `/api/jobs/${job}/slip` })).status).toBe(404)
})
