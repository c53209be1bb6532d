import type * as z from 'zod/mini'
import {
  count,
  type FieldFacts,
  fieldFacts,
  hash,
  languageTag,
  localTime,
  uuid,
} from '../../../api/domain/entry/fields.ts'
import { KINDS, type Kind } from '../../../api/domain/entry/registry.ts'
import { someone } from '../../../api/domain/entry/taking.ts'
import { SIGNED_TEXT, UNITS, type Unit } from '../../../api/domain/units.ts'

/** What a form has to ask of one value, read off the value's own schema. */
export type Shape =
  | {
      readonly is: 'quantity'
      readonly units: readonly Unit[]
      readonly signed: boolean
      readonly facts: FieldFacts | undefined
    }
  /** Digits or letters of one form. */
  | { readonly is: 'text'; readonly pattern: RegExp }
  | { readonly is: 'words'; readonly most: number }
  | { readonly is: 'spoken'; readonly most: number }
  | { readonly is: 'time' }
  | { readonly is: 'code'; readonly codes: readonly string[] }
  /** A load, part or person that is named by its id. */
  | { readonly is: 'id' }
  | { readonly is: 'someone' }
  /** What has one value only: nobody is asked. */
  | { readonly is: 'fixed'; readonly value: unknown }
  /** What no person can answer: a file's bytes and their hash. */
  | { readonly is: 'unasked' }
  /** `{ is: 'given', text }` or `{ is: 'given', at }`. */
  | { readonly is: 'given'; readonly key: string; readonly of: Shape }
  | { readonly is: 'rows'; readonly of: Shape; readonly least: number; readonly most: number }
  | { readonly is: 'fields'; readonly fields: readonly FieldShape[] }
  | { readonly is: 'tagged'; readonly options: readonly TagShape[] }

export type FieldShape = { readonly name: string; readonly optional: boolean; readonly shape: Shape }
/** One of several things that can be said: so much, none, not taken, … */
export type TagShape = { readonly tag: string; readonly of: Shape | undefined }

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
const defOf = (schema: z.ZodMiniType): Def => schema._zod.def as unknown as Def

const known = new Map<Kind, readonly FieldShape[]>()

/** The members of a kind's body as its shape of today has them: a kind that is added needs no form of its own. */
export const fieldsOfKind = (kind: Kind): readonly FieldShape[] => {
  const before = known.get(kind)
  if (before) return before
  const shape = shapeOf(KINDS[kind].today)
  if (shape.is !== 'fields') throw new Error(`the body of ${kind} has no fields of its own`)
  known.set(kind, shape.fields)
  return shape.fields
}

export const shapeOf = (schema: z.ZodMiniType, above?: FieldFacts): Shape => {
  if (schema === someone) return { is: 'someone' }
  if (schema === localTime) return { is: 'time' }
  if (schema === uuid) return { is: 'id' }
  if (schema === hash || schema === count) return { is: 'unasked' }
  const facts = fieldFacts.get(schema) ?? above
  const def = defOf(schema)
  switch (def.type) {
    case 'optional':
      return shapeOf(def.innerType!, facts)
    case 'literal':
      return { is: 'fixed', value: def.values![0] }
    case 'enum':
      return { is: 'code', codes: Object.values(def.entries!) }
    case 'array':
      return {
        is: 'rows',
        of: shapeOf(def.element!, facts),
        least: Number(ruleOf(def, 'min_length')?.minimum ?? 0),
        most: Number(ruleOf(def, 'max_length')?.maximum ?? 20),
      }
    case 'string':
      return stringShape(def)
    case 'object':
      return objectShape(def.shape!, facts)
    case 'union':
      return { is: 'tagged', options: def.options!.flatMap((option) => tagsOf(option, facts)) }
    default:
      throw new Error(`no way to ask for a ${def.type}`)
  }
}

const ruleOf = (def: Def, check: string) =>
  def.checks?.map((one) => one._zod.def).find((rule) => rule.check === check)

const stringShape = (def: Def): Shape => {
  const pattern = ruleOf(def, 'string_format')?.pattern
  if (pattern instanceof RegExp) return { is: 'text', pattern }
  return { is: 'words', most: Number(ruleOf(def, 'max_length')?.maximum ?? 0) }
}

const objectShape = (
  shape: Readonly<Record<string, z.ZodMiniType>>,
  facts: FieldFacts | undefined,
): Shape => {
  const names = Object.keys(shape).sort().join()
  if (shape.lang === languageTag)
    return { is: 'spoken', most: Number(ruleOf(defOf(shape.text!), 'max_length')?.maximum) }
  if (names === 'is,text,unit' && isUnits(shape.unit!)) return quantityShape(shape, facts)
  if (names === 'is,text') return { is: 'given', key: 'text', of: shapeOf(shape.text!) }
  if (names === 'at,is') return { is: 'given', key: 'at', of: shapeOf(shape.at!) }
  const fields = Object.entries(shape).map(
    ([name, member]): FieldShape => ({
      name,
      optional: defOf(member).type === 'optional',
      shape: shapeOf(member),
    }),
  )
  return { is: 'fields', fields }
}

const isUnits = (schema: z.ZodMiniType): boolean =>
  Object.values(defOf(schema).entries ?? {}).every((unit) => UNITS.some((known) => known === unit))

const quantityShape = (
  shape: Readonly<Record<string, z.ZodMiniType>>,
  facts: FieldFacts | undefined,
): Shape => {
  const pattern = ruleOf(defOf(shape.text!), 'string_format')?.pattern
  return {
    is: 'quantity',
    units: Object.values(defOf(shape.unit!).entries!) as Unit[],
    signed: pattern instanceof RegExp && pattern.source === SIGNED_TEXT.source,
    facts,
  }
}

/** The tags of one option of a union; a union within a union is no question of its own. */
const tagsOf = (option: z.ZodMiniType, facts: FieldFacts | undefined): TagShape[] => {
  const shape = shapeOf(option, facts)
  if (shape.is === 'tagged') return [...shape.options]
  if (shape.is === 'quantity' || shape.is === 'given') return [{ tag: 'given', of: shape }]
  const tag = shape.is === 'fields' ? shape.fields.find(({ name }) => name === 'is')?.shape : undefined
  if (shape.is !== 'fields' || tag?.is !== 'fixed') throw new Error('an option without a tag')
  return [{ tag: String(tag.value), of: shape.fields.length > 1 ? shape : undefined }]
}
