import type { DeviceHead } from '../log/device-log.ts'
import { readDeviceOrigin } from '../log/device-log.ts'
import { readLocalTime, toUtcTime } from '../time.ts'

/** An author's proof as the record holds it: which entry (hex hash), at which index of the head's tree. */
export type AuthorProof = { readonly entry: string; readonly index: number; readonly head: DeviceHead }

/** What a device signed, as far as this record needs it. */
export type HeadModel = {
  readonly device: string
  readonly epoch: number
  readonly size: number
  /** Size of the last company checkpoint that the device had verified. */
  readonly seen: number
  readonly clock: { readonly at: string; readonly boot: string; readonly mono: number }
  /** When the server received the head's last entry, where that entry is in this record; UTC. */
  readonly lastReceivedAt?: string
  /** Its last entry, where that is in this record (hex hash). */
  readonly lastEntry?: string
  /** That entry was set aside, and its receipt tells of an owner's decision and nothing of a clock. */
  readonly waited?: 'yes'
  /** Device's clock at signing less the time of receipt, in whole seconds: the way to the server is in it. */
  readonly aheadSeconds?: number
}

/** The head, less what its receipt seems to say of a clock where its last entry was set aside before the log took it. */
export const withoutWait = (head: HeadModel, isSetAside: (entry: string) => boolean): HeadModel => {
  if (head.lastEntry === undefined || !isSetAside(head.lastEntry)) return head
  const { aheadSeconds: _, ...rest } = head
  return { ...rest, waited: 'yes' }
}

/** The heads under which a record's entries are proven, each once, by device, epoch and size. */
export const headsUsed = (
  proofs: readonly AuthorProof[],
  receivedAt: ReadonlyMap<string, number>,
): HeadModel[] => {
  const nameOf = ({ origin, size }: DeviceHead): string => `${origin} ${size}`
  const lastOf = new Map(
    proofs.flatMap((p) => (p.index === p.head.size - 1 ? [[nameOf(p.head), p.entry]] : [])),
  )
  const heads = new Map<string, HeadModel>()
  for (const { head } of proofs) {
    const origin = readDeviceOrigin(head.origin)
    if (!origin) continue
    const last = lastOf.get(nameOf(head))
    const received = last === undefined ? undefined : receivedAt.get(last)
    const clockAt = readLocalTime(head.clock.at)
    heads.set(nameOf(head), {
      device: origin.device,
      epoch: origin.epoch,
      size: head.size,
      seen: head.seen.size,
      clock: head.clock,
      ...(received === undefined ? {} : { lastReceivedAt: toUtcTime(received) }),
      ...(received === undefined || last === undefined ? {} : { lastEntry: last }),
      ...(received === undefined || clockAt === undefined
        ? {}
        : { aheadSeconds: Math.floor((clockAt - received) / 1000) }),
    })
  }
  return [...heads.values()].sort(
    (a, b) =>
      (a.device < b.device ? -1 : a.device > b.device ? 1 : 0) || a.epoch - b.epoch || a.size - b.size,
  )
}
