import type { EventName, FactKind } from './facts.ts'
import { type Item, isTerm } from './items.ts'
import { FINISHING, type Term } from './vocabulary/term.ts'

/** What a word says of an event: of a load or of the finishing, and in which form. */
export type EventWord = {
  readonly at: number
  readonly what: { readonly kind: Extract<FactKind, `load.${string}`> } | { readonly name: EventName }
  readonly form: 'thing' | 'going-on' | 'done' | 'state'
  readonly seg: number
}

const has = (item: Item, term: Term): boolean => item.is === 'term' && item.terms.has(term)

/** States that hold now when nobody says a time: `he's here`, `on site`, `empty`. */
const HERE =
  /^(?:is here|s here|on site|onsite|on the site|on the job|on the jobsite|on location|here already|are here|re here|now here|is on site|pulling in|rolling in|backing in|on scene|ya .*|esta aqui|aqui esta|en la obra|en sitio|en el sitio|viene .*|aqui anda|va llegando|esta llegando)$/
const GOING =
  /^(?:pulling .*|rolling out|taking off|heading .*|is gone|he s gone|(?:truck|driver|mixer) (?:s |is )?gone|out of here|outta here|on his way back|headed .*|off site|off the .*|cleared out|ya .*|se va|va saliendo|se esta yendo|on the road back|gone from site)$/

/** The event that a term names by itself; `start` and `end` need what they start and end. */
export const eventWord = (items: readonly Item[], i: number): EventWord | undefined => {
  const item = items[i]!
  if (item.is !== 'term') return undefined
  const base = { at: i, seg: item.seg }
  // `slump came in at five`: a result, no truck.
  if (
    /^came in/.test(item.text) &&
    items
      .slice(Math.max(0, i - 3), i)
      .some((x) =>
        isTerm(x, 'slump', 'air', 'concrete', 'concrete-temperature', 'density', 'air-temperature'),
      )
  )
    return undefined
  for (const name of FINISHING) {
    if (has(item, `${name}-ing`)) return { ...base, what: { name }, form: 'going-on' }
    if (has(item, `${name}-past`)) return { ...base, what: { name }, form: 'done' }
    if (has(item, name)) return { ...base, what: { name }, form: 'thing' }
  }
  // `floated it out at eight fifty`.
  const stepOut =
    /^(?:in|out) at$/.test(item.text) &&
    items
      .slice(Math.max(0, i - 3), i)
      .some((x) => x.is === 'term' && FINISHING.some((name) => has(x, `${name}-past`)))
  if (stepOut) return undefined
  if (has(item, 'batched') || has(item, 'ticket-time'))
    return { ...base, what: { kind: 'load.batched_at' }, form: 'done' }
  if (has(item, 'arrived'))
    return { ...base, what: { kind: 'load.arrived_at' }, form: HERE.test(item.text) ? 'state' : 'done' }
  const dry = /fue$/.test(item.text) && items.slice(i + 1, i + 4).some((x) => isTerm(x, 'water', 'bleed'))
  if (has(item, 'left-job') && !dry)
    return { ...base, what: { kind: 'load.left_at' }, form: GOING.test(item.text) ? 'state' : 'done' }
  // `the screed over the last of it` empties no truck.
  const over =
    /^last/.test(item.text) &&
    items
      .slice(Math.max(0, i - 3), i)
      .some((x) => x.is === 'term' && FINISHING.some((name) => has(x, name) || has(x, `${name}-past`)))
  if (has(item, 'empty') && !over)
    return { ...base, what: { kind: 'load.discharge_ended_at' }, form: 'state' }
  if (has(item, 'first-out')) return { ...base, what: { kind: 'load.discharge_started_at' }, form: 'state' }
  if (has(item, 'pour-ing')) return { ...base, what: { kind: 'load.discharge_started_at' }, form: 'going-on' }
  if (has(item, 'here')) return { ...base, what: { kind: 'load.arrived_at' }, form: 'thing' }
  if (has(item, 'left')) return { ...base, what: { kind: 'load.left_at' }, form: 'thing' }
  if (item.text === 'gone') return { ...base, what: { kind: 'load.left_at' }, form: 'thing' }
  if (has(item, 'pour-past')) return { ...base, what: { kind: 'load.discharge_started_at' }, form: 'thing' }
  if (has(item, 'start') && !has(item, 'end'))
    return { ...base, what: { kind: 'load.discharge_started_at' }, form: 'thing' }
  if (has(item, 'end') && !has(item, 'got'))
    return { ...base, what: { kind: 'load.discharge_ended_at' }, form: 'thing' }
  return undefined
}

/** Words that a time can stand next to, for reading a bare row of numbers as a time. */
export const takesTime = (items: readonly Item[], i: number): boolean => {
  const word = eventWord(items, i)
  if (word)
    return (
      !('name' in word.what) ||
      word.form !== 'thing' ||
      isTerm(items[i], 'broom', 'cure_applied', 'saw_cut', 'float')
    )
  return isTerm(items[i], 'left-plant', 'pour', 'gone', 'bleed')
}
