import type { Fact } from '../../../../api/domain/phrase/facts.ts'
import type { Chance } from '../../../kit/chance.ts'
import { type Clause, MAKERS } from './say-fact.ts'
import type { Tongue } from './say-number.ts'

const LEAD: Readonly<Record<Tongue, readonly string[]>> = {
  en: ['okay so', 'uh', 'alright', 'hey', 'yeah', 'okay', 'so', 'um', 'listen', 'for the log'],
  es: ['bueno', 'oye', 'pues', 'este', 'ok', 'a ver'],
}
const INNER: Readonly<Record<Tongue, readonly string[]>> = {
  en: ['uh', 'um', 'okay', 'let me see'],
  es: ['este', 'eh', 'pues'],
}
const LOADS: Readonly<Record<Tongue, readonly (readonly [string, number])[]>> = {
  en: [
    ['load one', 1],
    ['load two', 2],
    ['load three', 3],
    ['second load', 2],
  ],
  es: [
    ['carga uno', 1],
    ['carga dos', 2],
    ['la segunda carga', 2],
  ],
}

export type Made = { readonly said: string; readonly facts: readonly Fact[] }

/** Values, units, order, language and filler drawn anew: one to five facts in one breath, each said once. */
export const sentence = (chance: Chance): Made => {
  const tongue: Tongue = chance.chance(0.65) ? 'en' : 'es'
  const mixed = chance.chance(0.12)
  const wanted = chance.pick([1, 1, 2, 2, 3, 3, 4, 5])
  const clauses: Clause[] = []
  while (clauses.length < wanted) {
    const clause = chance.pick(MAKERS)(
      mixed && chance.chance(0.5) ? (tongue === 'en' ? 'es' : 'en') : tongue,
      chance,
    )
    if (clauses.some(({ about }) => about === clause.about)) continue
    clauses.push(clause)
  }
  const load = chance.chance(0.15) ? chance.pick(LOADS[tongue]) : undefined
  const parts: string[] = []
  if (chance.chance(0.3)) parts.push(chance.pick(LEAD[tongue]))
  if (load) parts.push(`${load[0]},`)
  for (const [i, { said }] of clauses.entries()) {
    if (i > 0 && chance.chance(0.08)) parts.push(chance.pick(INNER[tongue]))
    parts.push(i < clauses.length - 1 ? `${said}${joint(tongue, chance)}` : said)
  }
  const plain = parts.join(' ')
  const said = chance.chance(0.5) ? `${plain[0]!.toUpperCase()}${plain.slice(1)}.` : plain
  return { said, facts: clauses.flatMap(({ facts }) => facts.map((fact) => ofLoad(fact, load?.[1]))) }
}

const joint = (tongue: Tongue, chance: Chance): string => {
  const x = chance.next()
  if (x < 0.82) return ','
  return x < 0.92 ? (tongue === 'en' ? ' and' : ' y') : '.'
}

/** Weather and the finishing belong to no load. */
const ofLoad = (fact: Fact, load: number | undefined): Fact =>
  load === undefined || fact.kind === 'event' || /air_temperature|wind|humidity/.test(fact.kind)
    ? fact
    : { ...fact, load }
