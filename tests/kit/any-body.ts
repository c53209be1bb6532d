import fc from 'fast-check'
import type * as z from 'zod/mini'
import {
  hash,
  languageTag,
  localTime,
  publicKey,
  uuid,
  uuidV7,
  zoneName,
} from '../../api/domain/entry/fields.ts'
import { uuidV7 as newId } from '../../api/domain/entry/make.ts'
import { type BodyOf, KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { toBase64 } from '../../api/domain/log/encoding.ts'
import { QUANTITY_TEXT } from '../../api/domain/units.ts'

/** What stands for the strings whose form is not a pattern alone, or that should come from a small pool. */
export type Pools = {
  readonly uuid: fc.Arbitrary<string>
  readonly hash: fc.Arbitrary<string>
  readonly time: fc.Arbitrary<string>
  /** Texts of quantities that come up more often than any text whatever of their form. */
  readonly amounts?: readonly string[]
}

export const anyUuid = fc
  .uint8Array({ minLength: 16, maxLength: 16 })
  .map((bytes) => newId(1_776_772_800_000, () => bytes))
export const anyHash = fc.stringMatching(/^[0-9a-f]{64}$/)
export const anyTime = fc
  .tuple(fc.integer({ min: 0, max: 4_000_000_000_000 }), fc.constantFrom('-05:00', '+00:00', '+05:30'))
  .map(([ms, offset]) => `${new Date(ms).toISOString().slice(0, 23)}${offset}`)
/** Made once: it counts through all of Unicode when it is made. */
const anyText = fc.string({ unit: 'binary', minLength: 1, maxLength: 60 })
export const anyWords = (most: number) =>
  anyText.filter((text) => text.isWellFormed() && text.length <= most && !/[^\P{Cc}\n]/u.test(text))

const ANY: Pools = { uuid: anyUuid, hash: anyHash, time: anyTime }

/** Any body that a kind's shape of today takes: made from the shape itself, so that a new kind needs no line here. */
export const anyBody = <K extends Kind>(kind: K, pools: Pools = ANY): fc.Arbitrary<BodyOf<K>> =>
  anyOf(KINDS[kind].today, pools) as fc.Arbitrary<BodyOf<K>>

type Def = {
  readonly type: string
  readonly shape?: Readonly<Record<string, z.ZodMiniType>>
  readonly options?: readonly z.ZodMiniType[]
  readonly values?: readonly unknown[]
  readonly entries?: Readonly<Record<string, string>>
  readonly innerType?: z.ZodMiniType
  readonly element?: z.ZodMiniType
  readonly checks?: readonly { readonly _zod: { readonly def: Readonly<Record<string, unknown>> } }[]
}

const anyOf = (schema: z.ZodMiniType, pools: Pools): fc.Arbitrary<unknown> => {
  const named = namedOf(schema, pools)
  if (named) return named
  const def = schema._zod.def as unknown as Def
  const rules = (def.checks ?? []).map((check) => check._zod.def)
  const made = madeOf(def, rules, pools)
  return rules.some((rule) => rule.check === 'custom') || rules.length > 1
    ? made.filter((it) => schema.safeParse(it).success)
    : made
}

const namedOf = (schema: z.ZodMiniType, pools: Pools): fc.Arbitrary<unknown> | undefined => {
  const named = new Map<z.ZodMiniType, fc.Arbitrary<unknown>>([
    [uuid, pools.uuid],
    [uuidV7, pools.uuid],
    [hash, pools.hash],
    [localTime, pools.time],
    [zoneName, fc.constantFrom('America/Chicago', 'UTC', 'Etc/GMT+6')],
    [languageTag, fc.constantFrom('en', 'es', 'es-US')],
    [publicKey, fc.uint8Array({ minLength: 32, maxLength: 32 }).map(toBase64)],
  ])
  return named.get(schema)
}

const madeOf = (
  def: Def,
  rules: readonly Readonly<Record<string, unknown>>[],
  pools: Pools,
): fc.Arbitrary<unknown> => {
  const rule = (check: string) => rules.find((one) => one.check === check)
  const most = Number(rule('max_length')?.maximum ?? 60)
  switch (def.type) {
    case 'object': {
      const members = Object.entries(def.shape!)
      const isOptional = (member: z.ZodMiniType) => (member._zod.def as unknown as Def).type === 'optional'
      return fc.record(Object.fromEntries(members.map(([name, member]) => [name, anyOf(member, pools)])), {
        requiredKeys: members.filter(([, member]) => !isOptional(member)).map(([name]) => name),
      })
    }
    case 'optional':
      return anyOf(def.innerType!, pools)
    case 'union':
      return fc.oneof(...def.options!.map((option) => anyOf(option, pools)))
    case 'array':
      return fc.array(anyOf(def.element!, pools), {
        minLength: Number(rule('min_length')?.minimum ?? 0),
        maxLength: Math.min(most, 4),
      })
    case 'literal':
      return fc.constantFrom(...def.values!)
    case 'enum':
      return fc.constantFrom(...Object.values(def.entries!))
    case 'number':
      return fc.nat()
    case 'string': {
      const pattern = rule('string_format')?.pattern
      if (!(pattern instanceof RegExp)) return anyWords(most)
      const any = fc.stringMatching(pattern)
      const plain = pattern === QUANTITY_TEXT ? (pools.amounts ?? []) : []
      return plain.length === 0 ? any : fc.oneof({ weight: 3, arbitrary: fc.constantFrom(...plain) }, any)
    }
    default:
      throw new Error(`no way to make a ${def.type}`)
  }
}

/** One body of a kind, always the same: for tests that need any at all. */
export const sampleBody = <K extends Kind>(kind: K, pools: Pools = ANY): BodyOf<K> =>
  fc.sample(anyBody(kind, pools), { numRuns: 1, seed: 7 })[0]!
