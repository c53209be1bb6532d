import { type Plain, writePlain } from '../log/bytes.ts'
import { toHex } from '../log/encoding.ts'
import type { LocalTime } from '../time.ts'
import type { RandomBytes } from '../world.ts'
import type { By, Source } from './envelope.ts'
import type { KindSpec } from './kind.ts'
import { type BodyOf, KINDS, type Kind } from './registry.ts'

/** Where and by whom an entry is made: the same for all that a device makes in one run. */
export type Maker = { readonly device: string; readonly by: By; readonly boot: string }

/** One thing that happened, as the maker gives it. */
export type Happening<K extends Kind> = {
  readonly job: string
  readonly kind: K
  readonly body: BodyOf<K>
  readonly occurredAt: LocalTime
  readonly source: Source
  readonly evidence?: readonly string[]
  readonly corrects?: readonly string[]
  readonly why?: { readonly lang: string; readonly text: string }
}

/** The device's clocks at the moment of making. */
export type Moment = { readonly now: number; readonly recordedAt: LocalTime; readonly mono: number }

/**
 * The bytes of a new entry: made once, here; from now on only copied. The body is held to its kind's type by the
 * compiler; the door reads it again like anybody's.
 */
export const makeEntry = <K extends Kind>(
  happening: Happening<K>,
  maker: Maker,
  moment: Moment,
  random: RandomBytes,
): Uint8Array => {
  const { evidence, corrects, why } = happening
  return writePlain({
    v: releaseFor(happening),
    id: uuidV7(moment.now, random),
    job: happening.job,
    kind: happening.kind,
    body: withoutUndefined(happening.body),
    occurredAt: happening.occurredAt,
    recordedAt: moment.recordedAt,
    boot: maker.boot,
    mono: Math.floor(moment.mono),
    device: maker.device,
    by: maker.by,
    source: happening.source,
    ...(evidence && evidence.length > 0 ? { evidence: [...evidence] } : {}),
    ...(corrects && corrects.length > 0 ? { corrects: [...new Set(corrects)].sort() } : {}),
    ...(why ? { why: { lang: why.lang, text: why.text } } : {}),
  })
}

/** The oldest release whose shape holds this body, so that a phone one release behind reads all that it can. */
const releaseFor = ({ kind, body }: { kind: Kind; body: unknown }): number => {
  const { shapes }: KindSpec = KINDS[kind]
  const oldest = shapes.length > 1 ? shapes.find(({ schema }) => schema.safeParse(body).success) : undefined
  return (oldest ?? shapes.at(-1)!).since
}

const withoutUndefined = (body: object): Plain =>
  Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined)) as Plain

/** A UUID of 48 bits of time and 74 of chance. Source: RFC 9562 (2024) §5.7. */
export const uuidV7 = (now: number, random: RandomBytes): string => {
  const bytes = random(16).slice()
  new DataView(bytes.buffer).setUint32(0, Math.floor(now / 0x10000))
  new DataView(bytes.buffer).setUint16(4, now % 0x10000)
  bytes[6] = (bytes[6]! & 0x0f) | 0x70
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  return writeUuid(bytes)
}

const writeUuid = (bytes: Uint8Array): string => {
  const hex = toHex(bytes)
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}
