import { fail, ok, type Result } from '../../domain/result.ts'
import { offRange, type Range } from '../../domain/trade/asked.ts'
import type { In } from '../../domain/trade/measure.ts'
import { readMeasure } from '../../domain/trade/read-measure.ts'
import { type Dimension, unitsOf } from '../../domain/trade/unit-table.ts'
import { showNumber } from '../../domain/units.ts'

/** One `name=value` of a calculation: how it is read, and what help says of it. */
export type Field<T> = {
  readonly says: string
  /** What it takes, in a few words: units, range, or the choices. */
  readonly takes: string
  readonly optional: boolean
  /** Read where nothing was given. */
  readonly usual?: string
  readonly read: (text: string) => Result<T>
  /** Of a measure: in what it can be meant. */
  readonly range?: Range
}
export type Fields = Readonly<Record<string, Field<unknown>>>
export type Values<F extends Fields> = {
  readonly [K in keyof F]: F[K] extends Field<infer T> ? T | undefined : never
}

export const measured = <D extends Dimension>(dimension: D, says: string, range?: Range): Field<In<D>> => ({
  says,
  takes: takesOf(dimension, range),
  optional: false,
  ...(range ? { range } : {}),
  read: (text) => {
    const read = readMeasure(text, dimension)
    return read.ok && range ? (offRange('', read.value, range) ?? read) : read
  },
})

/** May be left out: what is not known stays not recorded. */
export const maybe = <T>(field: Field<T>): Field<T> => ({ ...field, optional: true })
/** May be left out: then it is this. */
export const usually = <T>(field: Field<T>, usual: string): Field<T> => ({ ...field, optional: true, usual })

export const choice = <const T extends string>(
  of: readonly T[],
  says: string,
  usual?: NoInfer<T>,
): Field<T> => ({
  says,
  takes: of.join(' | '),
  optional: usual !== undefined,
  ...(usual === undefined ? {} : { usual }),
  read: (text) => {
    const found = of.find((one) => one === text)
    return found === undefined ? fail('not-known', '', { given: text, known: of.join(', ') }) : ok(found)
  },
})

export const yesNo = (says: string): Field<boolean> => ({
  says,
  takes: 'yes | no',
  optional: true,
  read: (text) =>
    text === 'yes' || text === 'no'
      ? ok(text === 'yes')
      : fail('not-known', '', { given: text, known: 'yes, no' }),
})

export const words = (says: string, takes: string): Field<string> => ({
  says,
  takes,
  optional: false,
  read: ok,
})

/** Several, with commas between. */
export const list = <T>(one: Field<T>): Field<readonly T[]> => ({
  ...one,
  takes: `${one.takes}; several with commas between`,
  read: (text) => {
    const all: T[] = []
    for (const [i, part] of text.split(',').entries()) {
      const read = one.read(part.trim())
      if (!read.ok) return fail(read.problem.code, `/${i}${read.problem.at}`, read.problem.evidence)
      all.push(read.value)
    }
    return ok(all)
  },
})

/** Some values that belong together, with @ between: `12gal@8yd`. */
export const tuple = <T extends Fields>(
  parts: T,
  says: string,
): Field<{ readonly [K in keyof T]: NonNullable<Values<T>[K]> }> => {
  const names = Object.keys(parts)
  return {
    says,
    takes: names.map((name) => `${name} (${parts[name]!.takes})`).join(' @ '),
    optional: false,
    read: (text) => {
      const given = text.split('@')
      if (given.length !== names.length)
        return fail('not-together', '', { given: text, known: names.join('@') })
      const out: Record<string, unknown> = {}
      for (const [i, name] of names.entries()) {
        const read = parts[name]!.read(given[i]!.trim())
        if (!read.ok) return fail(read.problem.code, `/${name}${read.problem.at}`, read.problem.evidence)
        out[name] = read.value
      }
      return ok(out as never)
    },
  }
}

const takesOf = (dimension: Dimension, range: Range | undefined): string => {
  const units = dimension === 'number' ? 'a plain number' : unitsOf(dimension).join(', ')
  if (!range) return units
  const end = ({ n, d, unit }: Range['least']) =>
    `${showNumber({ n, d }, 3)}${unit === 'one' ? '' : ` ${unit}`}`
  return `${units}; ${end(range.least)} to ${end(range.most)}`
}
