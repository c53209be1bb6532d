import { webcrypto } from 'node:crypto'
import { makeEntry, uuidV7 } from '../../api/domain/entry/make.ts'
import type { BodyOf } from '../../api/domain/entry/registry.ts'
import { toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { toUtcTime } from '../../api/domain/time.ts'
import { sha256 } from '../../api/server/senses.ts'
import { stampQuery } from '../../api/server/stamp/request.ts'
import { timestampReader } from '../../api/verify/timestamp/read-timestamp.ts'
import type { GoodLog } from '../damage/good-log.ts'
import { chanceOf, seedOf, takePush } from '../damage/scripted-log.ts'
import type { Authority } from './authority.ts'

export type StampChange = {
  /** What is stamped, instead of the checkpoint's note. */
  readonly stamped?: Uint8Array
  /** What is done to the authority's response before it is kept. */
  readonly response?: (response: Uint8Array) => Uint8Array
  readonly body?: Partial<BodyOf<'checkpoint.stamped'>>
}

export const readStamp = timestampReader(webcrypto as Crypto)
export const NONCE = new Uint8Array([0x41, ...seedOf('nonce').slice(0, 15)])

/**
 * Stamps the log's newest checkpoint as the server does at the end of a day, with an entry of the server's device, and some
 * change on the way where a test wants one.
 */
export const stampLog = async (
  good: GoodLog,
  authority: Authority,
  change: StampChange = {},
): Promise<number> => {
  const { log } = good
  const { size, note } = log.checkpoints.at(-1)!
  const stamped = change.stamped ?? toUtf8(note)
  const plain = authority.reply(stampQuery(sha256(stamped), NONCE))
  const { said } = await readStamp(plain, { stamped, nonce: NONCE, roots: [] })
  const response = change.response?.(plain) ?? plain
  const receivedAt = log.leaves.at(-1)!.receivedAt + 6 * 3_600_000
  const chance = chanceOf(`stamp ${size}`)
  const boot = uuidV7(receivedAt, chance)
  const at = toUtcTime(receivedAt).replace('Z', '+00:00')
  const token = toHex(sha256(response))
  const entry = makeEntry(
    {
      job: log.company,
      kind: 'checkpoint.stamped',
      body: {
        size,
        token,
        nonce: toHex(NONCE),
        stampedAt: toUtcTime(said?.at ?? receivedAt).replace('Z', '+00:00'),
        ...change.body,
      },
      occurredAt: at,
      source: 'server',
    },
    { device: good.devices.server.id, by: { known: 'server' }, boot },
    { now: receivedAt, recordedAt: at, mono: 1 },
    chance,
  )
  await takePush(log, { device: good.devices.server, entries: [entry], receivedAt, seen: size, boot })
  log.stamps.push({ token, size, bytes: response, receivedAt })
  return size
}
