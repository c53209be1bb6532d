import { foldMembers, type Members } from '../access/members.ts'
import { foldQuarantine, type SetAside } from '../access/quarantine.ts'
import { type HashedEntry, isUnread, type ReadEntry } from '../entry/read.ts'
import type { Role } from '../entry/role.ts'
import type { TreeHead } from '../log/checkpoint.ts'
import { toBase64 } from '../log/encoding.ts'
import { toUtcTime } from '../time.ts'
import type { Language } from '../words/words.ts'
import { type HeadModel, withoutWait } from './heads.ts'
import { type JobModel, jobModel } from './job-model.ts'
import type { RecordRequest } from './request.ts'
import { type Who, whoOf, type YesNo, yesNo } from './said.ts'

/** One place in the job's thread, its entry as far as it can be read. */
export type ThreadSlot = {
  readonly count: number
  readonly hash: string
  readonly receivedAt: number
  /** Undefined where the record withholds the bytes, or nobody holds them any more. */
  readonly read: ReadEntry | undefined
}

export type RecordInput = {
  readonly language: Language
  readonly release: string
  readonly origin: string
  /** The log's verifier key (SPEC L19). */
  readonly logKey: string
  /** SHA-256 (hex) of the checker's page in the record; undefined where it brings none. */
  readonly checkerHash?: string | undefined
  /** Eight words of the log's state: `fingerprintOf`. */
  readonly fingerprint: string
  readonly request: RecordRequest
  readonly job: string
  readonly checkpoint: TreeHead
  /** Time of receipt of the checkpoint's last leaf, ms. */
  readonly made: number
  readonly thread: readonly ThreadSlot[]
  /** Quoted from the company's own affairs, with their counts in that thread. */
  readonly company: readonly { readonly count: number; readonly read: ReadEntry }[]
  readonly heads: readonly HeadModel[]
  /** What outside authorities stamped of the log, as far as this job's entries lie in it; none where left out. */
  readonly stamps?: readonly StampModel[]
  /** SHA-256 of each photo file in the record. */
  readonly photosHeld: ReadonlySet<string>
}

export type DeviceModel = {
  readonly device: string
  readonly use: 'phone' | 'office' | 'shared' | 'server'
  readonly person?: string
  readonly name?: string
  readonly withdrawn: YesNo
  readonly heads: readonly Omit<HeadModel, 'device'>[]
}

/** What a record says: `record.json` is its canonical JSON, the PDF and the tables are drawn from it alone. */
export type RecordModel = {
  readonly format: 'screedbook-record-model/v1'
  readonly language: Language
  readonly release: string
  readonly origin: string
  readonly logKey: string
  readonly checkerHash?: string
  readonly company:
    | { readonly is: 'given'; readonly name: string; readonly zone: string }
    | { readonly is: 'not-recorded' }
  readonly fingerprint: string
  readonly request: RecordRequest
  readonly checkpoint: { readonly size: number; readonly root: string }
  readonly made: string
  readonly job: JobModel
  readonly thread: readonly {
    readonly count: number
    readonly entry: string
    readonly receivedAt: string
    readonly is: 'given' | 'withheld' | 'unread'
  }[]
  readonly people: readonly { readonly person: string; readonly name: string; readonly role: Role }[]
  readonly devices: readonly DeviceModel[]
  /** Bytes of these devices that the server did not take, by hash. */
  readonly refused: readonly {
    readonly hash: string
    readonly device: string
    readonly code: string
    readonly at: string
  }[]
  /** What these devices sent after they were withdrawn, by hash, and what was decided on it. */
  readonly setAside: readonly SetAsideModel[]
  readonly stamps: readonly StampModel[]
  readonly photosHeld: readonly string[]
}

/** An RFC 3161 stamp over the log at a size, which holds the job's entries up to a count. */
export type StampModel = {
  readonly size: number
  readonly token: string
  /** The authority's time, as the log names it. */
  readonly stampedAt: string
  readonly upTo: number
}

export type SetAsideModel = {
  readonly entry: string
  readonly device: string
  readonly is: SetAside['is']
  /** The newest decision on it, absent while it waits. */
  readonly decided?: { readonly by: Who; readonly at: string }
}

/** A pure function of what a record holds; the checker calls it again and compares. */
export const recordModel = (input: RecordInput): RecordModel => {
  const quoted = [...input.company].sort((a, b) => a.count - b.count).map((c) => c.read)
  const known = quoted.filter((read): read is HashedEntry => !isUnread(read))
  const members = foldMembers(known)
  return {
    format: 'screedbook-record-model/v1',
    language: input.language,
    release: input.release,
    origin: input.origin,
    logKey: input.logKey,
    ...(input.checkerHash === undefined ? {} : { checkerHash: input.checkerHash }),
    fingerprint: input.fingerprint,
    request: input.request,
    company: members.company
      ? { is: 'given', name: members.company.name, zone: members.company.zone }
      : { is: 'not-recorded' },
    checkpoint: { size: input.checkpoint.size, root: toBase64(input.checkpoint.root) },
    made: toUtcTime(input.made),
    job: jobModel({
      job: input.job,
      entries: input.thread.flatMap(({ read, receivedAt }) => (read ? [{ ...read, receivedAt }] : [])),
      members,
    }),
    thread: input.thread.map(({ count, hash, receivedAt, read }) => ({
      count,
      entry: hash,
      receivedAt: toUtcTime(receivedAt),
      is: read ? (isUnread(read) ? 'unread' : 'given') : 'withheld',
    })),
    people: [...members.people.values()].map(({ person, name, role }) => ({ person, name, role })),
    devices: devicesOf(members, input.heads, new Set(foldQuarantine(known).keys())),
    refused: known.flatMap(({ entry }) =>
      entry.kind === 'entry.refused'
        ? [{ hash: entry.body.hash, device: entry.body.device, code: entry.body.code, at: entry.occurredAt }]
        : [],
    ),
    setAside: setAsideOf(known, members),
    stamps: [...(input.stamps ?? [])].sort((a, b) => a.size - b.size),
    photosHeld: [...input.photosHeld].sort(),
  }
}

const setAsideOf = (known: readonly HashedEntry[], members: Members): SetAsideModel[] =>
  [...foldQuarantine(known)].map(([entry, { device, is, decided }]) => ({
    entry,
    device,
    is,
    ...(decided ? { decided: { by: whoOf(decided.by, members), at: decided.at } } : {}),
  }))

const devicesOf = (
  members: Members,
  heads: readonly HeadModel[],
  setAside: ReadonlySet<string>,
): DeviceModel[] =>
  [...members.devices.values()].map(({ device, person, use, withdrawn }) => {
    const name = person === undefined ? undefined : members.people.get(person)?.name
    return {
      device,
      use,
      ...(person === undefined ? {} : { person }),
      ...(name === undefined ? {} : { name }),
      withdrawn: yesNo(withdrawn),
      heads: heads
        .filter((head) => head.device === device)
        .map((head) => withoutWait(head, (entry) => setAside.has(entry)))
        .map(({ device: _, ...head }) => head),
    }
  })
