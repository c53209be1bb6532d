import type { PushRequest } from '../../contract/messages/push.ts'
import type { Device } from '../../domain/access/members.ts'
import { type EntryProblem, hashEntry, type ReadEntry, readEntry } from '../../domain/entry/read.ts'
import { type Checkpoint, readCheckpoint } from '../../domain/log/checkpoint.ts'
import { type DeviceHead, deviceOrigin, readHead } from '../../domain/log/device-log.ts'
import { equalBytes, readBase64, toUtf8 } from '../../domain/log/encoding.ts'
import { type NoteKey, openNote } from '../../domain/log/note.ts'
import { fail, ok, type Result } from '../../domain/result.ts'
import type { Senses } from '../../domain/world.ts'

export type PushedEntry = {
  readonly hash: string
  readonly bytes: Uint8Array
  readonly read: Result<ReadEntry, EntryProblem>
}

/** A push whose signatures have been checked; whether it fits what the log holds is for the sequencer to say. */
export type ReadPush = {
  readonly epoch: number
  readonly from: number
  readonly entries: readonly PushedEntry[]
  readonly head: DeviceHead
  readonly headNote: string
  /** The company checkpoint that the phone has verified, itself verified again; undefined where it has none. */
  readonly seen: { readonly checkpoint: Checkpoint; readonly note: string } | undefined
}

type PushProblem = 'head-malformed' | 'head-signature' | 'head-differs' | 'request-malformed'

/** Everything about a push that can be checked without the log: signatures, names, sizes, each entry's own form. */
export const readPush = async (
  request: PushRequest,
  origin: string,
  device: Device,
  logKey: NoteKey,
  senses: Senses & { readonly vocabulary?: number },
): Promise<Result<ReadPush, PushProblem>> => {
  const name = deviceOrigin(origin, device.device, request.epoch)
  const text = await openNote(toUtf8(request.head), [{ name, publicKey: readBase64(device.key)! }], senses)
  if (!text.ok)
    return fail(text.problem.code === 'note-malformed' ? 'head-malformed' : 'head-signature', '/head')
  const head = readHead(text.value)
  if (!head.ok) return fail('head-malformed', '/head')
  if (head.value.origin !== name || head.value.size !== request.from + request.entries.length)
    return fail('head-differs', '/head')
  const seen = await readSeen(request.seen, origin, logKey, head.value, senses)
  if (!seen.ok) return seen
  const entries = request.entries.map((entry): PushedEntry => {
    const bytes = toUtf8(entry)
    return {
      hash: hashEntry(bytes, senses.sha256),
      bytes,
      read: readEntry(bytes, senses.sha256, senses.vocabulary),
    }
  })
  const { epoch, from } = request
  return ok({ epoch, from, entries, head: head.value, headNote: request.head, seen: seen.value })
}

const readSeen = async (
  note: string,
  origin: string,
  logKey: NoteKey,
  head: DeviceHead,
  senses: Senses,
): Promise<Result<ReadPush['seen'], 'head-differs' | 'request-malformed'>> => {
  if (note === '') return head.seen.size === 0 ? ok(undefined) : fail('head-differs', '/seen')
  const text = await openNote(toUtf8(note), [logKey], senses)
  const checkpoint = text.ok ? readCheckpoint(text.value) : text
  if (!checkpoint.ok || checkpoint.value.origin !== origin) return fail('request-malformed', '/seen')
  const same = checkpoint.value.size === head.seen.size && equalBytes(checkpoint.value.root, head.seen.root)
  return same ? ok({ checkpoint: checkpoint.value, note }) : fail('head-differs', '/seen')
}
