import type {
  AsidePushRow,
  BlobRow,
  CheckpointRow,
  CompanyRow,
  DeviceLeafRow,
  DeviceLogRow,
  HeadRow,
  LeafRow,
  MentionRow,
  SetAsideRow,
  StampRow,
  ThreadRow,
} from '../log-store/log-store.ts'

/**
 * One company's rows, in tables of two sorts: `one` holds one row under a key, `many` a growing list. A transaction
 * writes into a Rows of its own (a draft) and reads through both; the commit pours the draft into the base in one go,
 * so nobody ever sees half of it.
 */
export type Rows = { company: CompanyRow | undefined; readonly one: One; readonly many: Many }

type One = {
  readonly byId: Map<string, LeafRow>
  readonly byHash: Map<string, LeafRow>
  readonly threads: Map<string, ThreadRow>
  /** By `logKey`. */
  readonly deviceLogs: Map<string, DeviceLogRow>
  readonly checkpoints: Map<number, CheckpointRow>
  readonly setAside: Map<string, SetAsideRow>
  readonly blobs: Map<string, BlobRow>
  readonly stamps: Map<string, StampRow>
  readonly heads: Map<string, HeadRow>
  readonly mentionKeys: Map<string, MentionRow>
  /** By device and note. */
  readonly asidePushKeys: Map<string, AsidePushRow>
}

type Many = {
  readonly leaves: Map<'', LeafRow[]>
  readonly byJob: Map<string, LeafRow[]>
  readonly checkpointSizes: Map<'', number[]>
  readonly epochs: Map<string, number[]>
  /** By `logKey`. */
  readonly deviceLeaves: Map<string, string[]>
  readonly whereOnDevice: Map<string, DeviceLeafRow[]>
  readonly mentions: Map<string, MentionRow[]>
  readonly asideOf: Map<string, SetAsideRow[]>
  readonly asidePushes: Map<string, AsidePushRow[]>
}

export const logKey = (device: string, epoch: number): string => `${device}/${epoch}`

export const emptyRows = (): Rows => ({
  company: undefined,
  one: {
    byId: new Map(),
    byHash: new Map(),
    threads: new Map(),
    deviceLogs: new Map(),
    checkpoints: new Map(),
    setAside: new Map(),
    blobs: new Map(),
    stamps: new Map(),
    heads: new Map(),
    mentionKeys: new Map(),
    asidePushKeys: new Map(),
  },
  many: {
    leaves: new Map(),
    byJob: new Map(),
    checkpointSizes: new Map(),
    epochs: new Map(),
    deviceLeaves: new Map(),
    whereOnDevice: new Map(),
    mentions: new Map(),
    asideOf: new Map(),
    asidePushes: new Map(),
  },
})

/** The list under a key, made where there is none. */
export const listOf = <K, V>(table: Map<K, V[]>, key: K): V[] => {
  const there = table.get(key)
  if (there) return there
  const made: V[] = []
  table.set(key, made)
  return made
}

/** Pours a draft into the base; nothing in here can fail, or half a transaction would show. */
export const pour = (draft: Rows, base: Rows): void => {
  if (draft.company) base.company = draft.company
  for (const name of Object.keys(draft.one) as (keyof One)[]) pourOne(draft.one[name], base.one[name])
  for (const name of Object.keys(draft.many) as (keyof Many)[]) pourMany(draft.many[name], base.many[name])
}

// The names above are the same on both sides, which the compiler can't follow: the row's type is left open here.
const pourOne = (from: ReadonlyMap<unknown, unknown>, to: unknown): void => {
  const kept = to as Map<unknown, unknown>
  for (const [key, row] of from) kept.set(key, row)
}

const pourMany = (from: ReadonlyMap<unknown, readonly unknown[]>, to: unknown): void => {
  const kept = to as Map<unknown, unknown[]>
  for (const [key, rows] of from) {
    const list = listOf(kept, key)
    for (const row of rows) list.push(row)
  }
}
