import type { PullAnswer } from '../../api/contract/messages/pull.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { readCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { equalBytes, readBase64, readHex, toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { hashLeaf, readLeaf } from '../../api/domain/log/leaf.ts'
import { openNote, readVerifierKey } from '../../api/domain/log/note.ts'
import { appendAll, type Frontier, rootOf } from '../../api/domain/log/tree.ts'
import type { Identity, LogLeaf } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'

export type PullDoubt =
  | 'answer-malformed'
  | 'checkpoint-signature'
  | 'checkpoint-contradicts'
  | 'thread-broken'
  | 'entry-differs'
  | 'own-entry-missing'

/** Leaves that lead from a verified root to a checkpoint that the log signed. */
export type Verified = { readonly leaves: readonly LogLeaf[]; readonly frontier: Frontier }
/** `signed`: the log itself signed what can't be. */
export type Doubt = { readonly doubt: PullDoubt; readonly signed: boolean }

/** Whether an answer's leaves lead from what is verified to the checkpoint that came with them (SPEC L48). */
export const verifyStretch = async (
  world: PhoneWorld,
  identity: Identity,
  from: Frontier,
  answer: PullAnswer,
  note: string,
): Promise<Verified | Doubt> => {
  const key = readVerifierKey(identity.logKey, world.sha256)
  if (!key.ok) return { doubt: 'checkpoint-signature', signed: false }
  const text = await openNote(toUtf8(note), [key.value], world)
  if (!text.ok) return { doubt: 'checkpoint-signature', signed: false }
  const head = readCheckpoint(text.value)
  if (!head.ok || head.value.origin !== identity.origin)
    return { doubt: 'checkpoint-signature', signed: false }
  const leaves = readLeaves(world, from.size, answer)
  if (!leaves) return { doubt: 'answer-malformed', signed: false }
  const frontier = appendAll(
    from,
    leaves.map((l) => readHex(l.leafHash)!),
    world.sha256,
  )
  // A stretch that was cut or altered on its way gives another size or root too, and the log did not sign that: only
  // a checkpoint at the size that we hold already is a contradiction by itself.
  if (head.value.size !== frontier.size) return { doubt: 'answer-malformed', signed: false }
  if (!equalBytes(head.value.root, rootOf(frontier, world.sha256)))
    return { doubt: 'checkpoint-contradicts', signed: leaves.length === 0 }
  return { leaves, frontier }
}

const readLeaves = (world: PhoneWorld, from: number, answer: PullAnswer): LogLeaf[] | undefined => {
  if (answer.from !== from) return undefined
  const leaves: LogLeaf[] = []
  for (const [i, pulled] of answer.leaves.entries()) {
    const bytes = readBase64(pulled.leaf)
    const leaf = bytes && readLeaf(bytes)
    if (!leaf?.ok) return undefined
    const hash = toHex(leaf.value.entryHash)
    if (pulled.entry !== null && hashEntry(toUtf8(pulled.entry), world.sha256) !== hash) return undefined
    leaves.push({
      position: from + i,
      leaf: pulled.leaf,
      leafHash: toHex(hashLeaf(bytes!, world.sha256)),
      hash,
      receivedAt: leaf.value.receivedAt,
      text: pulled.entry,
    })
  }
  return leaves
}
