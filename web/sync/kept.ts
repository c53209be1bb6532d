import type { Frontier } from '../../api/domain/log/tree.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import type { PhoneTx } from './phone-store.ts'

/** Who this device is, since it joined. The private key is kept elsewhere, where no script can read it. */
export type Identity = {
  readonly company: string
  readonly origin: string
  /** The log's verifier key: by it, and nothing else, the phone believes a checkpoint. */
  readonly logKey: string
  readonly device: string
  readonly person: string
  readonly name: string
  readonly zone: string
  /** Set where the crew shares this phone: `person` answers for it then, and each entry names who was picked. */
  readonly use?: 'shared' | undefined
}

/** What became of an own entry. Nothing is ever taken off this shelf. */
export type OwnState =
  | { readonly is: 'waiting' }
  | { readonly is: 'kept'; readonly position: number; readonly landed: boolean }
  | { readonly is: 'refused'; readonly code: string; readonly at: string }
  | { readonly is: 'waits-for-server' }
  | { readonly is: 'set-aside' }

export type OwnEntry = {
  readonly epoch: number
  readonly index: number
  readonly hash: string
  readonly job: string
  /** The entry's own text; its UTF-8 bytes are what was hashed. */
  readonly text: string
  readonly state: OwnState
}

/** This device's log (SPEC §6): all of it, and the part that the server has answered for. */
export type DeviceLog = { readonly epoch: number; readonly whole: Frontier; readonly answered: Frontier }

/** The company log as far as this phone has verified it. */
export type CompanyLog = { readonly frontier: Frontier; readonly note: string }

export type LogLeaf = {
  readonly position: number
  readonly leaf: string
  readonly leafHash: string
  readonly hash: string
  readonly receivedAt: number
  /** Null where the server holds the hash alone. */
  readonly text: string | null
}

export type ThreadEndKept = {
  readonly tag: string
  readonly count: number
  readonly last: string
  readonly job: string | undefined
}

export type PhotoKept = {
  readonly hash: string
  readonly bytes: number
  readonly type: string
  readonly parts: number
  readonly sent: boolean
  /** Whether the verified log has an entry that names it, and the server's own that it arrived. */
  readonly named?: true
  readonly arrived?: true
  /** A problem's code where the server will not take it. */
  readonly refused?: string
}

/** Two signed notes that can't both be true, or one that our own log contradicts: kept for ever, shown, never hidden. */
export type Evidence = { readonly code: string; readonly notes: readonly string[]; readonly at: LocalTime }

const EPOCH_DIGITS = 9
const PLACE_DIGITS = 15
export const placeKey = (position: number): string => String(position).padStart(PLACE_DIGITS, '0')
export const ownKey = (epoch: number, index: number): string =>
  `${String(epoch).padStart(EPOCH_DIGITS, '0')}/${placeKey(index)}`
export const partKey = (hash: string, part: number): string => `${hash}/${String(part).padStart(6, '0')}`

type Meta = {
  identity: Identity
  'device-log': DeviceLog
  'company-log': CompanyLog
  evidence: readonly Evidence[]
  /** Server's clock minus this phone's, milliseconds, at the last answer. */
  'clock-offset': number
  /** When entries that an older server can't read were last sent again, by this phone's clock. */
  'waiting-sent': number
}

export const getMeta = <K extends keyof Meta>(tx: PhoneTx, key: K): Promise<Meta[K] | undefined> =>
  tx.get('meta', key)
export const putMeta = <K extends keyof Meta>(tx: PhoneTx, key: K, value: Meta[K]): Promise<void> =>
  tx.put('meta', key, value)
export const getOwn = (tx: PhoneTx, epoch: number, from: number, to: number): Promise<OwnEntry[]> =>
  tx.list('own', ownKey(epoch, from), ownKey(epoch, to))
export const putOwn = (tx: PhoneTx, own: OwnEntry): Promise<void> =>
  tx.put('own', ownKey(own.epoch, own.index), own)
