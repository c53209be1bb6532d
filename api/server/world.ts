import type { AccountStore } from '../../db/log-store/account-store.ts'
import type { LogStore } from '../../db/log-store/log-store.ts'
import type { ViewStore } from '../../db/log-store/view-store.ts'
import type { RecordRequest } from '../domain/record/request.ts'
import type { Senses } from '../domain/world.ts'
import type { KeysOf } from './keys.ts'
import type { PhotoStore } from './photo/photo-store.ts'
import type { PhotoViews } from './photo/views/photo-views.ts'

/** Everything outside that the server may touch: `createApp(world)` runs the same on a machine and in a simulator. */
export type ServerWorld = Senses & {
  readonly store: LogStore
  readonly accounts: AccountStore
  readonly views: ViewStore
  readonly photos: PhotoStore
  /** What is made of photos; passed in, since it reads and draws them in child processes. */
  readonly photoViews: PhotoViews
  readonly keysOf: KeysOf
  /** New each time the program starts. */
  readonly boot: string
  readonly release: string
  /** The greatest `v` of an entry that it reads; all that the program knows where undefined. */
  readonly vocabulary?: number
  /** Whether this house is a demonstration: its logs' origins say so. */
  readonly demo: boolean
  /** Makes a record's ZIP; passed in, since it typesets in a child process. */
  readonly record: RecordMaker
  /** An exception that reached the edge: our bug, or a machine that failed. */
  readonly report: (error: unknown) => void
}

export type RecordAsked = {
  readonly company: string
  readonly job: string
  readonly language: 'en' | 'es'
  /** As of this signed checkpoint; the newest where undefined. */
  readonly checkpointSize: number | undefined
  /** The whole job where undefined. */
  readonly scope?: RecordRequest | undefined
}
export type RecordMaker = (asked: RecordAsked) => Promise<ReadableStream<Uint8Array> | undefined>
