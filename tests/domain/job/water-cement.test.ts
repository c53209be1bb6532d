import { describe, expect, test } from 'vitest'
import type { Happening } from '../../../api/domain/entry/make.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import type { TicketWater } from '../../../api/domain/job/water-cement.ts'
import { type Ratio, showFixed, showNumber } from '../../../api/domain/units.ts'
import { at, entry, FIRST, given, JOB, stamp, ticket } from './pour.ts'

type Water = Happening<'water.added'>['body']
const water = (clock: string, amount: Water['amount'], more: Partial<Water> = {}) =>
  entry('water.added', { load: FIRST, amount, ...more }, { at: at(clock) })
const about = (yards: string, from?: string, to?: string): Water['inDrum'] => ({
  yards: given(yards, 'yd3'),
  how: 'by-eye',
  ...(from === undefined ? {} : { from: given(from, 'yd3') }),
  ...(to === undefined ? {} : { to: given(to, 'yd3') }),
})

/** Ticket 71352: 8 yd³ of 580 lb/yd³, batched at 29.2 gal/yd³, 16 gal may be added, w/cm at most 0.45. */
const batched = {
  batchedAt: { is: 'given', at: at('08:21') },
  batchedWater: given('233.6', 'gal'),
  cementitious: given('580', 'lb/yd3'),
  maxWaterCement: given('0.45', 'one'),
  allowance: given('16', 'gal'),
} as const
const first = water('09:40', given('12', 'gal'), { stage: 'before-discharge' })
const second = (inDrum: Water['inDrum']) =>
  water('10:00', given('8', 'gal'), { stage: 'after-discharge-began', ...(inDrum ? { inDrum } : {}) })

const waterOf = (entries: readonly KnownEntry[]): TicketWater =>
  jobFigures(foldJob(JOB, entries)).loads[0]!.ticketWaters[0]!
const oddities = (entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries)).loads[0]!.oddities
const three = (r: Ratio | undefined) => r && showFixed(r, 3)
const ratios = (entries: readonly KnownEntry[]) =>
  Object.fromEntries(waterOf(entries).ratios.map(({ part, ratio }) => [part, three(ratio)]))
const allowance = (entries: readonly KnownEntry[]) => {
  const found = waterOf(entries).allowance
  if (found.is !== 'given') return found
  const { allowed, added, over, atLeast, verdict } = found
  return {
    allowed: showNumber(allowed),
    added: added && showNumber(added),
    over: over && showNumber(over),
    atLeast,
    verdict,
  }
}
const lastPart = (entries: readonly KnownEntry[]) => {
  const found = waterOf(entries).allowance
  return found.is === 'given' ? found.lastPart : undefined
}

/** Figures of the scenario's second load, worked out by hand from its ticket with water at 8.34 lb/gal. */
describe('[water] w/cm of the parts of a load, by the demonstration’s second load', () => {
  const load = [ticket(batched), first, second(about('5', '4', '6'))]

  test('[water] batched 0.420, first 0.441, last 0.464 (0.461–0.470), whole 0.456', () => {
    expect(ratios(load)).toEqual({ batched: '0.420', first: '0.441', last: '0.464', whole: '0.456' })
    const last = waterOf(load).ratios.find(({ part }) => part === 'last')!
    expect(last.range?.map(three)).toEqual(['0.461', '0.470'])
    expect(last).toMatchObject({ byEye: true, byTimes: false })
    expect(three(waterOf(load).maxRatio)).toBe('0.450')
  })

  test('[water] 20 of 16 gal: 4 over; the last part had 3.1 gal/yd³ and was 5.5 over its share (5–6)', () => {
    expect(allowance(load)).toEqual({
      allowed: '16',
      added: '20',
      over: '4',
      atLeast: false,
      verdict: 'outside',
    })
    const part = lastPart(load)!
    expect([showNumber(part.gallonsPerYard, 1), showNumber(part.over, 1)]).toEqual(['3.1', '5.5'])
    expect(part.range?.over.map((r) => showNumber(r))).toEqual(['5', '6'])
    expect(part.range?.gallonsPerYard.map((r) => showNumber(r))).toEqual(['2.83', '3.5'])
  })

  test('[water] where the allowance was used up before, all that came after is over, and no more than that', () => {
    const used = water('09:40', given('20', 'gal'), { stage: 'before-discharge' })
    expect(showNumber(lastPart([ticket(batched), used, second(about('5'))])!.over)).toBe('8')
  })

  test('[water] litres, cubic metres and kilograms give the same ratios', () => {
    const metric = [
      ticket({
        ...batched,
        yards: given('6.116439', 'm3'),
        batchedWater: given('884.272233', 'L'),
        cementitious: given('344.099', 'kg/m3'),
        allowance: given('60.566589', 'L'),
      }),
      water('09:40', given('45.424941', 'L'), { stage: 'before-discharge' }),
      water('10:00', given('30.283294', 'L'), {
        stage: 'after-discharge-began',
        inDrum: { yards: given('3.822774', 'm3'), how: 'measured' },
      }),
    ]
    expect(ratios(metric)).toEqual({ batched: '0.420', first: '0.441', last: '0.464', whole: '0.456' })
    expect(allowance(metric)).toMatchObject({ allowed: '16', added: '20', over: '4' })
  })
})

/**
 * Worked ratios. The first by Engineering ToolBox, "Water cement ratio" (45 gal and 900 lb: 0.42, at 8.33 lb/gal); the
 * second by US Army course EN5466A (38.6 gal to 7.05 sacks of 94 lb, worked from its figures: 0.485).
 */
describe('[water] w/cm of published examples, to two digits after the point at 8.34 lb/gal', () => {
  const ROWS = [
    { source: 'Engineering ToolBox', gallons: '45', pounds: '900', expected: '0.42' },
    { source: 'US Army EN5466A', gallons: '38.6', pounds: '662.7', expected: '0.49' },
  ] as const
  for (const { source, gallons, pounds, expected } of ROWS)
    test(`[water] ${source}: ${gallons} gal to ${pounds} lb is ${expected}`, () => {
      const one = ticket({
        yards: given('1', 'yd3'),
        batchedWater: given(gallons, 'gal'),
        cementitious: given(pounds, 'lb/yd3'),
      })
      expect(showFixed(waterOf([one]).ratios[0]!.ratio, 2)).toBe(expected)
    })
})

describe('[water] of what nobody logged nothing follows', () => {
  test('[water] no answer to “water?” is neither zero added nor inside the allowance', () => {
    expect(allowance([ticket(batched)])).toEqual({
      allowed: '16',
      added: undefined,
      over: undefined,
      atLeast: false,
      verdict: 'not-recorded',
    })
    expect(ratios([ticket(batched)])).toEqual({ batched: '0.420' })
  })

  test('[water] none is zero: inside, and the whole load as batched', () => {
    const none = [ticket(batched), water('09:40', { is: 'none' })]
    expect(allowance(none)).toMatchObject({ added: '0', over: '0', verdict: 'inside' })
    expect(ratios(none)).toEqual({ batched: '0.420', whole: '0.420' })
  })

  test('[water] not sure of a further amount: at least so much, never inside, outside if that is enough for it', () => {
    const unsure = water('10:05', { is: 'not-sure' })
    expect(allowance([ticket(batched), unsure])).toMatchObject({ added: undefined, verdict: 'not-recorded' })
    expect(allowance([ticket(batched), first, unsure])).toEqual({
      allowed: '16',
      added: '12',
      over: undefined,
      atLeast: true,
      verdict: 'not-recorded',
    })
    const much = [ticket(batched), water('09:40', given('17', 'gal')), unsure]
    expect(allowance(much)).toMatchObject({ over: '1', atLeast: true, verdict: 'outside' })
    expect(ratios([ticket(batched), first, unsure])).toEqual({ batched: '0.420' })
    expect(lastPart([ticket(batched), first, second(about('5')), unsure])).toBeUndefined()
  })

  test('[water] no allowance on the ticket, and none recorded of it, are two things; none printed is zero gallons', () => {
    expect(allowance([ticket({ ...batched, allowance: { is: 'not-stated' } }), first])).toEqual({
      is: 'not-stated',
    })
    expect(allowance([ticket(), first])).toEqual({ is: 'not-recorded' })
    const nothing = [ticket({ ...batched, allowance: { is: 'none' } }), first]
    expect(allowance(nothing)).toMatchObject({ allowed: '0', over: '12', verdict: 'outside' })
  })

  test('[water] a ticket that lacks yards, batched water or cement gives no ratio', () => {
    for (const lacking of [
      { yards: { is: 'not-stated' } },
      { batchedWater: { is: 'not-stated' } },
      { cementitious: { is: 'not-stated' } },
      { cementitious: given('0', 'lb/yd3') },
    ] as const)
      expect(waterOf([ticket({ ...batched, ...lacking }), first]).ratios).toEqual([])
  })

  test('[conflict] two tickets are each reckoned', () => {
    const other = ticket({ ...batched, batchedWater: given('240', 'gal') })
    const figures = jobFigures(foldJob(JOB, [ticket(batched), other, first])).loads[0]!.ticketWaters
    expect(figures.map(({ ratios: [one] }) => three(one!.ratio)).sort()).toEqual(['0.420', '0.431'])
  })
})

describe('[stages] when water went in is said, or plain by the times, or unknown', () => {
  const start = stamp('discharge.started', '09:45')
  const untold = (clock: string, inDrum?: Water['inDrum']) =>
    water(clock, given('8', 'gal'), inDrum ? { inDrum } : {})
  const stages = (entries: readonly KnownEntry[]) => {
    const found = jobFigures(foldJob(JOB, entries)).loads[0]!.waterByStage
    const { before, afterBegan, inTransit, notSaid, byTimes } = found
    return [before, afterBegan, inTransit, notSaid, byTimes.before, byTimes.afterBegan].map((r) =>
      showNumber(r),
    )
  }

  test('[stages] as said, whatever the clock says, and then the two are flagged against each other', () => {
    const said = [ticket(batched), start, first, second(about('5'))]
    expect(stages(said)).toEqual(['12', '8', '0', '0', '0', '0'])
    expect(oddities(said)).toEqual([])
    const against = [ticket(batched), start, water('10:00', given('8', 'gal'), { stage: 'before-discharge' })]
    expect(stages(against)).toEqual(['8', '0', '0', '0', '0', '0'])
    expect(oddities(against)).toEqual(['water-stage-against-times'])
  })

  test('[stages] before the recorded start, or after it, by the times, and said to be so', () => {
    expect(stages([start, untold('09:44')])).toEqual(['8', '0', '0', '0', '8', '0'])
    expect(stages([start, untold('09:46')])).toEqual(['0', '8', '0', '0', '0', '8'])
    const load = [ticket(batched), start, first, untold('10:00', about('5', '4', '6'))]
    expect(ratios(load)).toMatchObject({ first: '0.441', last: '0.464' })
    expect(waterOf(load).ratios.map(({ part, byTimes }) => [part, byTimes])).toEqual([
      ['batched', false],
      ['first', true],
      ['last', true],
      ['whole', false],
    ])
    expect(lastPart(load)).toMatchObject({ byTimes: true })
  })

  test('[stages] in the minute of the start, between two starts, or with none recorded, nothing is plain', () => {
    const twoStarts = [start, stamp('discharge.started', '09:55')]
    for (const load of [[start, untold('09:45')], [...twoStarts, untold('09:50')], [untold('09:50')]]) {
      expect(stages(load)).toEqual(['0', '0', '0', '8', '0', '0'])
      expect(ratios([ticket(batched), first, ...load])).toEqual({ batched: '0.420', whole: '0.456' })
      expect(lastPart([ticket(batched), first, ...load])).toBeUndefined()
    }
    expect(stages([...twoStarts, untold('09:40')])).toEqual(['8', '0', '0', '0', '8', '0'])
  })

  test('[stages] one addition of unknown stage leaves every part unknown, also where another’s is said', () => {
    const load = [ticket(batched), first, second(about('5')), untold('09:50')]
    expect(Object.keys(ratios(load))).toEqual(['batched', 'whole'])
    expect(lastPart(load)).toBeUndefined()
  })

  test('[stages] water in transit is a stage of its own and counts against the allowance and in every part', () => {
    const load = [
      ticket(batched),
      water('08:50', given('12', 'gal'), { stage: 'in-transit' }),
      second(about('5')),
    ]
    expect(stages(load)).toEqual(['0', '8', '12', '0', '0', '0'])
    expect(allowance(load)).toMatchObject({ added: '20', over: '4' })
    expect(ratios(load)).toMatchObject({ first: '0.441', last: '0.464' })
  })
})

describe('[drum] the last part needs what was still in the drum', () => {
  const parts = (inDrum: Water['inDrum'], ...more: KnownEntry[]) => {
    const load = [ticket(batched), first, second(inDrum), ...more]
    return { ratios: Object.keys(ratios(load)), last: lastPart(load), odd: oddities(load) }
  }

  test('[drum] where nobody said, or water went in twice after the start, the last part is not known', () => {
    const unknown = { ratios: ['batched', 'first', 'whole'], last: undefined }
    expect(parts(undefined)).toMatchObject({ ...unknown, odd: [] })
    const third = water('10:10', given('2', 'gal'), { stage: 'after-discharge-began', inDrum: about('2') })
    expect(parts(about('5'), third)).toMatchObject(unknown)
  })

  test('[drum] more than the ticket’s yards, or outside its own range, is flagged and used for nothing', () => {
    for (const inDrum of [about('9'), about('5', '6', '7'), about('5', '2', '4'), about('5', '4', '9')])
      expect(parts(inDrum)).toEqual({
        ratios: ['batched', 'first', 'whole'],
        last: undefined,
        odd: ['yards-do-not-fit'],
      })
    expect(parts(about('8', '8', '8'))).toMatchObject({ odd: [] })
  })
})
