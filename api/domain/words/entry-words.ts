import type { BodyOf, Kind } from '../entry/registry.ts'
import type { Unit } from '../units.ts'

/** A withdrawal's body is empty, which the types spell as any name at all. */
type Saying = Exclude<Kind, 'entry.withdrawn'>
type Bodies = { [K in Saying]: BodyOf<K> }[Saying]
type NamesIn<T> = T extends readonly (infer One)[]
  ? NamesIn<One>
  : T extends object
    ? { [N in keyof T]: N | NamesIn<NonNullable<T[N]>> }[keyof T]
    : never
type CodesIn<T> = T extends string
  ? string extends T
    ? never
    : T
  : T extends readonly (infer One)[]
    ? CodesIn<One>
    : T extends object
      ? { [N in keyof T]: CodesIn<NonNullable<T[N]>> }[keyof T]
      : never

/** Every member's name in every kind's body, and every code that stands in one: found by the compiler. */
export type FieldName = Extract<NamesIn<Bodies>, string>
export type Code = Exclude<NonNullable<CodesIn<Bodies>>, Unit>

/** Words of one language for everything that an entry's body can hold; the compiler asks for those of a new kind. */
export type EntryWords = {
  readonly fields: Readonly<Record<FieldName, string>>
  readonly codes: Readonly<Record<Code, string>>
  readonly kinds: Readonly<Record<Kind, string>>
  readonly units: Readonly<Record<Unit, string>>
}
