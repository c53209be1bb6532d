import { type PullAnswer, pullAnswer } from '../../api/contract/messages/pull.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { readBase64, readHex, readUtf8, toBase64, toUtf8 } from '../../api/domain/log/encoding.ts'
import { hashLeaf, readLeaf, writeLeaf } from '../../api/domain/log/leaf.ts'
import { appendAll, EMPTY_FRONTIER, type Frontier, rootOf } from '../../api/domain/log/tree.ts'
import { sha256 } from '../../api/server/senses.ts'
import { getMeta } from '../../web/sync/kept.ts'
import type { PhoneStore } from '../../web/sync/phone-store.ts'
import type { WireAnswer, WireRequest } from '../../web/sync/wire.ts'
import type { Chance } from '../kit/chance.ts'

/**
 * What stands between phone and server and has no key changes what the log says: a phone takes nothing of it, and holds
 * nothing against the log for it.
 */
export const tamper = async (answer: WireAnswer, store: PhoneStore, chance: Chance): Promise<WireAnswer> => {
  const read = pullAnswer.safeParse(JSON.parse(readUtf8(answer.body)!))
  if (!read.success || read.data.leaves.length === 0 || read.data.checkpoint === null) return answer
  const log = await store.transact((tx) => getMeta(tx, 'company-log'))
  const changed = chance.pick(CHANGES)(read.data, chance, log?.frontier ?? EMPTY_FRONTIER)
  return { ...answer, body: toUtf8(JSON.stringify(changed)) }
}

/** The same of what a phone sends: an entry that says something else, two in the wrong order, or one that is left out. */
export const tamperPush = (request: WireRequest, chance: Chance): WireRequest => {
  const push = JSON.parse(String(request.body)) as { readonly entries: readonly string[] }
  if (push.entries.length === 0) return request
  const at = chance.below(push.entries.length)
  const changes = [
    push.entries.with(at, altered(push.entries[at]!)!),
    push.entries.toReversed(),
    push.entries.toSpliced(at, 1),
  ]
  return { ...request, body: JSON.stringify({ ...push, entries: chance.pick(changes) }) }
}

type Change = (answer: PullAnswer, chance: Chance, from: Frontier) => PullAnswer

const ENTRY = { from: '"occurredAt":"2026', to: '"occurredAt":"2025' }

const CHANGES: readonly Change[] = [
  // A leaf is left out, doubled, or trades places with its neighbour.
  (answer, chance) => ({ ...answer, leaves: answer.leaves.toSpliced(chance.below(answer.leaves.length), 1) }),
  (answer) => ({ ...answer, leaves: [...answer.leaves, answer.leaves.at(-1)!] }),
  (answer) => ({ ...answer, leaves: answer.leaves.toReversed() }),
  // An entry says something else than its leaf.
  (answer, chance) => changedAt(answer, chance, (leaf) => ({ ...leaf, entry: altered(leaf.entry) })),
  // Entry and leaf are changed together, and the checkpoint is not.
  (answer, chance) => changedAt(answer, chance, forgedLeaf),
  // All of it fits, under a signature that is nobody's, or under none that anyone knows.
  (answer, chance, from) =>
    forged(changedAt(answer, chance, forgedLeaf), from, (line) => line.replace(/.{8}\n$/, 'AAAAAAA=\n')),
  (answer, chance, from) =>
    forged(changedAt(answer, chance, forgedLeaf), from, (line) => line.replace('— screedbook', '— somebody')),
]

type Leaf = PullAnswer['leaves'][number]

const changedAt = (answer: PullAnswer, chance: Chance, change: (leaf: Leaf) => Leaf): PullAnswer => {
  const at = chance.below(answer.leaves.length)
  return { ...answer, leaves: answer.leaves.with(at, change(answer.leaves[at]!)) }
}

const altered = (entry: string | null): string | null => entry?.replace(ENTRY.from, ENTRY.to) ?? null

const forgedLeaf = (pulled: Leaf): Leaf => {
  const leaf = readLeaf(readBase64(pulled.leaf)!)
  const entry = altered(pulled.entry)
  if (!leaf.ok || entry === null) return pulled
  const entryHash = readHex(hashEntry(toUtf8(entry), sha256))!
  return { entry, leaf: toBase64(writeLeaf({ ...leaf.value, entryHash })) }
}

const forged = (answer: PullAnswer, from: Frontier, sign: (line: string) => string): PullAnswer => {
  const hashes = answer.leaves.map(({ leaf }) => hashLeaf(readBase64(leaf)!, sha256))
  const root = rootOf(appendAll(from, hashes, sha256), sha256)
  const [origin, size, , empty, ...lines] = answer.checkpoint!.split('\n')
  const checkpoint = [origin, size, toBase64(root), empty, sign(lines.join('\n'))].join('\n')
  return { ...answer, checkpoint }
}
