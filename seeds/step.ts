import type { BodyOf, Kind } from '../api/domain/entry/registry.ts'

export type Spoken = { readonly lang: string; readonly text: string }

type Common<D extends string> = {
  /** Which device it is logged on. */
  readonly on: D
  /** When it happened: `2026-04-21 07:05`, on the wall at the site. */
  readonly at: string
  /** When it was typed in, where that was not at once. */
  readonly logged?: string
}

/** Something that is logged as an entry; `name` lets a later step correct it. */
export type Said<D extends string> = Common<D> & {
  readonly name?: string
  readonly corrects?: string
  readonly why?: Spoken
} & { readonly [K in Kind]: { readonly kind: K; readonly body: BodyOf<K> } }[Kind]

/** A photo that is taken, or was sent in, by its file's name. */
export type Snap<D extends string> = Common<D> & {
  readonly photo: string
} & Pick<BodyOf<'photo.taken'>, 'shows' | 'load' | 'part' | 'where'>

export type Step<D extends string = string> = Said<D> | Snap<D>

export const isSnap = <D extends string>(step: Step<D>): step is Snap<D> => 'photo' in step

/** A quantity as it is typed. */
export const given = <U extends string>(text: string, unit: U) => ({ is: 'given', text, unit }) as const

export const english = (text: string): Spoken => ({ lang: 'en', text })
export const spanish = (text: string): Spoken => ({ lang: 'es', text })
