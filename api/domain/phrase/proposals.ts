import type { BodyOf, Kind } from '../entry/registry.ts'
import type { LocalTime } from '../time.ts'
import type { Unit } from '../units.ts'
import type { Fact, FactUnit, Stage } from './facts.ts'
import { momentOf } from './moment.ts'

/**
 * An entry that a fact would become once a person says yes. `missing` names what the body still lacks and the screen must ask:
 * a ticket's other fields, how a slump was found, where the weather comes from. What was not said is never filled in.
 */
export type Proposal = {
  [K in Kind]: {
    readonly kind: K
    readonly body: Partial<BodyOf<K>>
    readonly missing: readonly string[]
    /** Absent where nobody said when: the screen offers the moment of speech and says so. */
    readonly occurredAt?: LocalTime
    /** Which facts it comes from, by their place in the list. */
    readonly from: readonly number[]
    /** It corrects something said before; the screen finds which. */
    readonly corrects?: true
    /** Asked before it is kept. */
    readonly ask?: true
  }
}[Kind]

export type Moment = {
  /** When it was said, with the offset then in force. */
  readonly at: LocalTime
  /** The job's IANA zone. */
  readonly zone: string
  /** The language of what was said. */
  readonly lang: string
  /** The id of the load of that number, or of the load at hand where no number was said. */
  readonly load: (number: number | undefined) => string | undefined
}

type Made<K extends Kind = Kind> = { kind: K; body: Partial<BodyOf<K>>; missing?: readonly string[] }
const made = <K extends Kind>(
  kind: K,
  body: Partial<BodyOf<K>>,
  missing: readonly string[] = [],
): Made<K> => ({ kind, body, missing })

/** The entries that the facts of one utterance propose, in the order of the facts; those of one ticket are one entry. */
export const proposalsOf = (facts: readonly Fact[], moment: Moment): Proposal[] => {
  const out: Proposal[] = []
  const tickets = new Map<
    string,
    { body: Partial<BodyOf<'ticket.recorded'>>; from: number[]; ask: boolean }
  >()
  for (const [i, fact] of facts.entries()) {
    const ticket = ticketField(fact, moment)
    if (ticket) {
      const key = `${fact.load ?? ''}${fact.corrects ? ` ${i}` : ''}`
      const held = tickets.get(key) ?? { body: loadOf(fact, moment), from: [], ask: false }
      tickets.set(key, {
        body: { ...held.body, ...ticket },
        from: [...held.from, i],
        ask: held.ask || fact.low_confidence === true,
      })
      continue
    }
    const one = propose(fact, moment)
    const at = momentOf(fact, moment)
    out.push({
      ...one,
      missing: lacking(one),
      from: [i],
      ...(at === undefined ? {} : { occurredAt: at }),
      ...(fact.corrects ? { corrects: true } : {}),
      ...(fact.low_confidence ? { ask: true } : {}),
    } as Proposal)
  }
  for (const { body, from, ask } of tickets.values()) {
    const missing = (['load', 'number', 'truck', 'yards', 'batchedAt', 'limit'] as const).filter(
      (field) => body[field] === undefined,
    )
    out.push({
      kind: 'ticket.recorded',
      body,
      missing,
      from,
      ...(from.some((i) => facts[i]!.corrects) ? { corrects: true as const } : {}),
      ...(ask ? { ask: true as const } : {}),
    })
  }
  return out
}

const OF_LOAD: ReadonlySet<Kind> = new Set<Kind>([
  'load.arrived',
  'discharge.started',
  'discharge.ended',
  'load.left',
  'water.added',
  'slump.measured',
  'flow.measured',
  'air.measured',
  'density.measured',
  'cylinders.made',
  'load.rejected',
])

const lacking = ({ kind, body, missing = [] }: Made): readonly string[] =>
  OF_LOAD.has(kind) && !('load' in body) ? ['load', ...missing] : missing

const loadOf = (fact: Fact, { load }: Moment): { load?: string } => {
  const id = load(fact.load)
  return id === undefined ? {} : { load: id }
}

const UNITS: Readonly<Record<Exclude<FactUnit, 'count'>, Unit>> = {
  in: 'in',
  mm: 'mm',
  '%': 'pct',
  '%RH': 'pct',
  degF: 'degF',
  degC: 'degC',
  gal: 'gal',
  L: 'L',
  yd3: 'yd3',
  m3: 'm3',
  mph: 'mph',
  'km/h': 'km/h',
  'lb/ft3': 'lb/ft3',
  'kg/m3': 'kg/m3',
}

/** A quantity in an entry's form: the number as decimal text. */
const given = <U extends Unit>(value: number, unit: FactUnit | undefined) => ({
  is: 'given' as const,
  text: String(value),
  unit: UNITS[(unit ?? 'in') as keyof typeof UNITS] as U,
})

const ticketField = (fact: Fact, moment: Moment): Partial<BodyOf<'ticket.recorded'>> | undefined => {
  // The end of a number is no number, and a derived age never replaces a ticket's time.
  if (fact.partial || fact.derived) return undefined
  if (fact.kind === 'load.ticket') return { number: { is: 'given', text: String(fact.value) } }
  if (fact.kind === 'load.truck') return { truck: { is: 'given', text: String(fact.value) } }
  if (fact.kind === 'load.volume' && typeof fact.value === 'number')
    return { yards: given<'yd3' | 'm3'>(fact.value, fact.unit) }
  if (fact.kind === 'load.batched_at') {
    const at = momentOf(fact, moment)
    return at === undefined ? undefined : { batchedAt: { is: 'given', at } }
  }
  return undefined
}

const propose = (fact: Fact, moment: Moment): Made => {
  const load = loadOf(fact, moment)
  const size = typeof fact.value === 'number' ? fact.value : undefined
  switch (fact.kind) {
    case 'load.arrived_at':
      return made('load.arrived', load)
    case 'load.discharge_started_at':
      return made('discharge.started', load)
    case 'load.discharge_ended_at':
      return made('discharge.ended', load)
    case 'load.left_at':
      return made('load.left', load)
    case 'load.water_added':
      return size === undefined ? remark(fact, moment) : water(fact, size, load)
    case 'load.rejected':
      return made('load.rejected', {
        ...load,
        reason: reasonOf(fact.reason),
        ...(fact.reason ? { words: { lang: moment.lang, text: fact.reason } } : {}),
      })
    case 'reading.slump':
      return slump(fact, size, load, moment)
    case 'reading.slump_flow':
      return size === undefined
        ? remark(fact, moment)
        : made('flow.measured', { ...load, flow: given<'in' | 'mm'>(size, fact.unit) })
    case 'reading.air':
      return air(fact, size, load, moment)
    case 'reading.concrete_temperature':
    case 'reading.air_temperature':
      return temperature(fact, size, load, moment)
    case 'reading.wind':
      return size === undefined
        ? remark(fact, moment)
        : made(
            'weather.observed',
            {
              wind: given<'mph' | 'km/h'>(size, fact.unit),
              ...(fact.gust === undefined ? {} : { gust: given<'mph' | 'km/h'>(fact.gust, fact.unit) }),
            },
            ['source'],
          )
    case 'reading.humidity':
      return size === undefined
        ? remark(fact, moment)
        : made('weather.observed', { humidity: given<'pct'>(size, fact.unit) }, ['source'])
    case 'reading.density':
      if (fact.not_taken) return made('density.measured', { ...load, density: { is: 'not-taken' } })
      return size === undefined
        ? remark(fact, moment)
        : made('density.measured', { ...load, density: given<'lb/ft3' | 'kg/m3'>(size, fact.unit) })
    case 'reading.cylinders':
      return cylinders(fact, size, load)
    case 'event':
      return finishing(fact)
    default:
      return remark(fact, moment)
  }
}

const WATER_STAGE: Readonly<Partial<Record<Stage, BodyOf<'water.added'>['stage']>>> = {
  before_discharge: 'before-discharge',
  after_discharge_began: 'after-discharge-began',
  in_transit: 'in-transit',
}

const water = (fact: Fact, size: number, load: { load?: string }): Made<'water.added'> => {
  const stage = fact.stage && WATER_STAGE[fact.stage]
  // What was left in the drum was judged, unless somebody taped it, which nobody says in passing.
  const inDrum =
    fact.yd3_left === undefined
      ? {}
      : { inDrum: { yards: given<'yd3'>(fact.yd3_left, 'yd3'), how: 'by-eye' as const } }
  return made('water.added', {
    ...load,
    amount: size === 0 ? { is: 'none' } : given<'gal' | 'L'>(size, fact.unit),
    ...(stage ? { stage } : {}),
    ...inDrum,
    ...(fact.reported_by ? { added: { called: 'driver' } } : {}),
  })
}

const takingOf = ({ stage }: Fact): { taking?: { water: 'before' | 'after' } } =>
  stage === 'before_water'
    ? { taking: { water: 'before' } }
    : stage === 'after_water'
      ? { taking: { water: 'after' } }
      : {}

const slump = (fact: Fact, size: number | undefined, load: { load?: string }, moment: Moment): Made => {
  if (fact.not_taken)
    return made('slump.measured', { ...load, slump: { is: 'not-taken' }, ...takingOf(fact) })
  if (size === undefined) return remark(fact, moment)
  const how = fact.method === 'measured' ? 'cone' : fact.method === 'estimated' ? 'by-eye' : undefined
  return made(
    'slump.measured',
    { ...load, slump: given<'in' | 'mm'>(size, fact.unit), ...(how ? { how } : {}), ...takingOf(fact) },
    how ? [] : ['how'],
  )
}

const air = (fact: Fact, size: number | undefined, load: { load?: string }, moment: Moment): Made => {
  if (fact.not_taken) return made('air.measured', { ...load, air: { is: 'not-taken' }, ...takingOf(fact) })
  if (size === undefined) return remark(fact, moment)
  const correction =
    fact.correction === undefined ? {} : { aggregateCorrection: given<'pct'>(Math.abs(fact.correction), '%') }
  return made('air.measured', { ...load, air: given<'pct'>(size, '%'), ...correction, ...takingOf(fact) })
}

const temperature = (fact: Fact, size: number | undefined, load: { load?: string }, moment: Moment): Made => {
  const of = fact.kind === 'reading.concrete_temperature' ? 'concrete' : 'air'
  const where = of === 'concrete' ? load : {}
  if (fact.not_taken) return made('temperature.measured', { of, temperature: { is: 'not-taken' }, ...where })
  return size === undefined
    ? remark(fact, moment)
    : made('temperature.measured', { of, temperature: given<'degF' | 'degC'>(size, fact.unit), ...where })
}

const cylinders = (fact: Fact, size: number | undefined, load: { load?: string }): Made<'cylinders.made'> => {
  const kind = fact.size === '4x8 in' ? '4x8' : fact.size === '6x12 in' ? '6x12' : undefined
  return made('cylinders.made', {
    ...load,
    number: size === undefined || size === 0 ? { is: 'none' } : { is: 'given', text: String(size) },
    ...(kind ? { size: kind } : {}),
    ...(fact.set ? { label: fact.set } : {}),
  })
}

const finishing = (fact: Fact): Made => {
  const where = fact.area === undefined ? {} : { where: fact.area }
  const phase = fact.phase === 'under_way' ? ('under-way' as const) : fact.phase
  switch (fact.name) {
    case 'cure_applied':
      return made('cure.applied', where)
    case 'rain':
      return made('rain.fell', phase ? { phase } : {}, phase ? [] : ['phase'])
    case 'saw_cut': {
      const ends = phase === 'start' || phase === 'end' ? phase : undefined
      return made('joint.sawn', { ...(ends ? { phase: ends } : {}), ...where }, ends ? [] : ['phase'])
    }
    default: {
      const step = (fact.name ?? 'float').replaceAll('_', '-') as BodyOf<'finish.done'>['step']
      return made('finish.done', { step, ...(phase ? { phase } : {}), ...where })
    }
  }
}

const REASONS: readonly (readonly [RegExp, BodyOf<'load.rejected'>['reason']])[] = [
  [/\b(?:old|late|viej[oa]|tarde|minutes)\b/i, 'late'],
  [/\b(?:wet|dry|stiff|soupy|loose|slump|aguad[oa]|sec[oa]|dur[oa]|revenimiento)\b/i, 'slump'],
  [/\b(?:air|aire)\b/i, 'air'],
  [/\b(?:hot|cold|caliente|fr[ií][oa])\b/i, 'temperature'],
  [/\b(?:mix|mezcla)\b/i, 'wrong-mix'],
  [/\b(?:setting|kicking|set up|fragu\w+)\b/i, 'set'],
]

const reasonOf = (said: string | undefined): BodyOf<'load.rejected'>['reason'] =>
  REASONS.find(([words]) => said !== undefined && words.test(said))?.[1] ?? 'other'

/** What has no figure of its own is kept as said. */
const remark = (fact: Fact, moment: Moment): Made<'remark.made'> => {
  const load = loadOf(fact, moment)
  const range =
    fact.min === undefined
      ? ''
      : `${fact.kind.replace(/^.*\./, '')} ${fact.min}–${fact.max} ${fact.unit ?? ''}`.trim()
  const text = fact.text ?? (range || (fact.value === undefined ? '' : `${fact.kind} ${fact.value}`))
  return text === ''
    ? made('remark.made', load, ['remark'])
    : made('remark.made', { ...load, remark: { lang: moment.lang, text: text.slice(0, 2000) } })
}
