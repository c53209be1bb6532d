import { describe, expect, test } from 'vitest'
import type { Happening } from '../../../api/domain/entry/make.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { partYards } from '../../../api/domain/job/volume.ts'
import { type Ratio, showFixed, showNumber } from '../../../api/domain/units.ts'
import {
  at,
  DRIVE,
  entry,
  FIRST,
  given,
  JOB,
  OTHER_PHONE,
  PATIO,
  SECOND,
  stamp,
  ticket,
  WALK,
} from './pour.ts'

type Part = Happening<'placement.planned'>['body']['parts'][number]
const slab = (part: string, name: string, length: string, width: string, inches: string): Part => ({
  part,
  name,
  length: given(length, 'ft'),
  width: given(width, 'ft'),
  thickness: given(inches, 'in'),
})
const LANDING = '019db000-0000-7000-8000-0000000000e4'
/** The scenario's work: drive, front walk, front landing, patio. */
const DRIVE_PART = slab(DRIVE, 'drive', '40', '20', '5')
const PARTS: readonly (readonly [Part, string])[] = [
  [DRIVE_PART, '12.35'],
  [slab(WALK, 'front walk', '40', '3.5', '4'), '1.73'],
  [slab(LANDING, 'front landing', '12', '4', '4'), '0.59'],
  [slab(PATIO, 'patio', '16', '14', '4'), '2.77'],
]
const PLACEMENT = '019db000-0000-7000-8000-0000000000f1'
const planned = (parts: readonly Part[], corrects: readonly string[] = []) =>
  entry(
    'placement.planned',
    { placement: PLACEMENT, name: 'drive and patio', parts: [...parts] },
    { corrects },
  )
const figures = (entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries))
const shown = (r: Ratio | undefined) => r && showNumber(r)

/** Printed answers, in yd³: CTE math lesson, answer key (slabs of feet by feet by inches); it cuts to two digits. */
const PRINTED: readonly (readonly [string, string, string, string])[] = [
  ['12', '40', '4', '5.93'],
  ['12', '30', '6', '6.67'],
  ['1', '110', '18', '6.11'],
  ['4', '75', '3', '2.78'],
  ['8', '16', '4', '1.58'],
]

describe('[yards] formed, by the plan', () => {
  for (const [part, yards] of PARTS)
    test(`[yards] the ${part.name} is ${yards}`, () => expect(showFixed(partYards(part)!, 2)).toBe(yards))
  test('[yards] together they are 17.43', () =>
    expect(shown(figures([planned(PARTS.map(([part]) => part))]).formedYards)).toBe('17.43'))

  for (const [length, width, inches, printed] of PRINTED)
    test(`[yards] a printed answer: ${length} by ${width} ft, ${inches} in, is ${printed}`, () => {
      const yards = partYards(slab(DRIVE, 'slab', length, width, inches))!
      expect(Math.abs(Number(yards.n) / Number(yards.d) - Number(printed))).toBeLessThan(0.011)
    })
  // 2018 National Home Improvement Estimator, p. 42: 420 ft² at 4 in are 5.18 yd³ net; 81 ft² at 4 in cover one.
  test('[yards] a printed answer: 420 ft² at 4 in are 5.18 (5.185 exactly)', () =>
    expect(showFixed(partYards(slab(DRIVE, 'slab', '42', '10', '4'))!, 3)).toBe('5.185'))
  test('[yards] a printed answer: 81 ft² at 4 in take one', () =>
    expect(shown(partYards(slab(DRIVE, 'slab', '9', '9', '4')))).toBe('1'))

  test('[yards] metres and millimetres are the feet and inches that they are', () => {
    const metric: Part = {
      ...DRIVE_PART,
      length: given('12.192', 'm'),
      width: given('6.096', 'm'),
      thickness: given('127', 'mm'),
    }
    expect(partYards(metric)).toEqual(partYards(DRIVE_PART))
  })

  test('[yards] nothing planned is no volume, not none', () =>
    expect(figures([]).formedYards).toBeUndefined())

  test('[yards] a corrected part counts as corrected; a part in two standing plans counts once', () => {
    const first = planned([DRIVE_PART])
    const thicker = { ...DRIVE_PART, thickness: given('6', 'in') }
    expect(shown(figures([first, planned([thicker], [first.hash])]).formedYards)).toBe('14.81')
    const again = figures([first, planned([{ ...DRIVE_PART, name: 'driveway' }])])
    expect([shown(again.formedYards), again.partsWithoutYards, again.oddities]).toEqual(['12.35', 0, []])
  })

  test('[conflict] a part with two standing sizes is in no sum, is counted apart, and flagged', () => {
    const thicker = { ...DRIVE_PART, thickness: given('6', 'in') }
    const load = [yards(FIRST, '8'), left(FIRST, none)]
    const two = figures([planned([DRIVE_PART, PARTS[3]![0]]), planned([thicker]), ...load])
    expect([shown(two.formedYards), two.partsWithoutYards, two.overFormed]).toEqual(['2.77', 1, undefined])
    expect(two.oddities).toEqual(['part-planned-twice'])
  })

  test('[yards] two parts of one name are both summed, and flagged', () => {
    const twice = figures([planned([DRIVE_PART]), planned([{ ...DRIVE_PART, part: WALK, name: 'Drive ' }])])
    expect([shown(twice.formedYards), twice.oddities]).toEqual(['24.69', ['part-planned-twice']])
  })
})

const yards = (load: string, text: string, corrects: readonly string[] = []) =>
  ticket({ load, yards: given(text, 'yd3') }, { corrects })
type Left = Happening<'concrete.left'>['body']
const left = (load: string, amount: Left['yards']) =>
  entry('concrete.left', { load, yards: amount, how: 'by-eye' })
const none = { is: 'none' } as const

describe('[yards] placed: ticketed less left over', () => {
  const THIRD = '019db000-0000-7000-8000-000000000003'
  const pour = [
    planned(PARTS.map(([part]) => part)),
    entry('concrete.ordered', { yards: given('16', 'yd3') }),
    entry('balance.ordered', { yards: given('2.5', 'yd3') }),
    yards(FIRST, '8'),
    yards(SECOND, '8'),
    yards(THIRD, '2.5'),
    left(FIRST, none),
    left(SECOND, none),
    left(THIRD, given('0.05', 'yd3')),
  ]

  test('[yards] 18.5 ordered, 18.5 ticketed, 18.45 placed, 5.8 % more than formed', () => {
    const all = figures(pour)
    expect([all.orderedYards, all.ticketedYards, all.placedYards, all.difference].map(shown)).toEqual([
      '18.5',
      '18.5',
      '18.45',
      '0',
    ])
    expect(showNumber(all.overFormed!, 1)).toBe('5.8')
    expect(all.loadsWithoutPlaced).toBe(0)
  })

  test('[yards] that nobody spoke of a rest, or was sure of one, is not that there was none', () => {
    for (const unknown of [
      [],
      [left(FIRST, { is: 'not-sure' })],
      [left(FIRST, none), left(FIRST, given('1', 'yd3'))],
    ]) {
      const all = figures([...pour.slice(0, 4), ...unknown])
      expect([all.loads[0]!.placed, all.loadsWithoutPlaced, all.overFormed]).toEqual([
        undefined,
        1,
        undefined,
      ])
    }
  })

  test('[yards] two phones that say the same of it agree', () => {
    const both = figures([
      yards(FIRST, '8'),
      left(FIRST, given('1/2', 'yd3')),
      left(FIRST, given('0.5', 'yd3')),
    ])
    expect(shown(both.loads[0]!.placed)).toBe('7.5')
  })

  test('[yards] more left over than the ticket states is flagged, and nothing is taken to be placed', () => {
    const odd = figures([yards(FIRST, '8'), left(FIRST, given('9', 'yd3'))]).loads[0]!
    expect([odd.placed, odd.oddities]).toEqual([undefined, ['yards-do-not-fit']])
  })

  test('[yards] more told to be in its places than the ticket states is flagged', () => {
    const placed = (drive: string, patio: string) =>
      entry('load.placed', {
        load: FIRST,
        places: [
          { part: DRIVE, yards: given(drive, 'yd3') },
          { part: PATIO, yards: given(patio, 'yd3') },
        ],
        how: 'by-eye',
      })
    const odd = (...said: readonly KnownEntry[]) => figures([yards(FIRST, '8'), ...said]).loads[0]!.oddities
    expect(odd(placed('7 1/2', '1/2'))).toEqual([])
    expect(odd(placed('7 1/2', '3/4'))).toEqual(['yards-do-not-fit'])
    expect(odd(placed('4', '1/2'), placed('4', '1/2'))).toEqual(['yards-do-not-fit'])
  })

  test('[conflict] a load whose tickets differ in yards has no volume placed', () => {
    const two = figures([yards(FIRST, '8'), yards(FIRST, '9'), left(FIRST, none)])
    expect([two.loads[0]!.placed, two.loadsWithoutYards, two.loadsWithoutPlaced]).toEqual([undefined, 1, 1])
    const agreed = figures([yards(FIRST, '7 3/4'), yards(FIRST, '7.75'), left(FIRST, none)])
    expect(shown(agreed.loads[0]!.placed)).toBe('7.75')
  })

  test('[yards] a plan of nothing has no percentage over', () => {
    const flat = [planned([slab(DRIVE, 'drive', '0', '20', '5')]), yards(FIRST, '8'), left(FIRST, none)]
    expect(figures(flat).overFormed).toBeUndefined()
  })
})

describe('[rejected] a load that was sent back', () => {
  const rejected = entry('load.rejected', { load: SECOND, reason: 'slump' })
  const sums = (entries: readonly KnownEntry[]) => {
    const all = figures(entries)
    return [all.ticketedYards, all.sentBackYards, all.difference, all.placedYards].map(shown)
  }
  const ordered = entry('concrete.ordered', { yards: given('16', 'yd3') })
  const day = [ordered, yards(FIRST, '8'), left(FIRST, none), yards(SECOND, '8')]

  test('[rejected] is in neither the yards ticketed nor those placed, so that they are still to come', () => {
    expect(sums([...day, left(SECOND, none)])).toEqual(['16', '0', '0', '16'])
    expect(sums([...day, rejected])).toEqual(['8', '8', '-8', '8'])
    expect(figures([...day, rejected]).loadsWithoutPlaced).toBe(0)
  })

  test('[rejected] with its discharge begun is what was not left over, and flagged', () => {
    const begun = [...day, rejected, stamp('discharge.started', '09:45', SECOND)]
    expect(figures(begun).loads.find((l) => l.load === SECOND)).toMatchObject({
      placed: undefined,
      oddities: ['rejected-and-taken'],
    })
    expect(sums([...begun, left(SECOND, given('6', 'yd3'))])).toEqual(['16', '0', '0', '10'])
    const placed = entry('load.placed', { load: SECOND, places: [{ part: DRIVE }], how: 'by-eye' })
    expect(sums([...day, rejected, placed, left(SECOND, given('6', 'yd3'))])).toEqual(['16', '0', '0', '10'])
  })

  test('[rejected] lacks no discharge, while a load that was taken does', () => {
    const missing = (entries: readonly KnownEntry[]) => figures(entries).loads[0]!.missing
    expect(missing([yards(SECOND, '8')])).toEqual(['arrived', 'water', 'slump', 'started', 'ended', 'left'])
    expect(missing([yards(SECOND, '8'), rejected])).toEqual(['arrived', 'water', 'slump', 'left'])
  })

  test('[missing] of two tickets, what one of them states is not missing', () => {
    const bare = ticket({ load: FIRST, limit: { is: 'not-stated' } }, { at: at('07:01') })
    const { missing } = figures([bare, yards(FIRST, '8')]).loads[0]!
    expect(missing).not.toContain('limit')
    expect(figures([bare]).loads[0]!.missing).toContain('limit')
  })

  test('[rejected] and accepted too is flagged', () => {
    const both = figures([...day, rejected, entry('load.accepted', { load: SECOND })])
    expect(both.loads.find((l) => l.load === SECOND)!.oddities).toEqual(['rejected-and-taken'])
  })
})

describe('[twice] an order or a balance that two phones told', () => {
  const balance = (text: string, device?: string) =>
    entry('balance.ordered', { yards: given(text, 'yd3') }, device ? { device } : {})
  test('[twice] counts twice and is flagged; two of one phone, or of other yards, are two', () => {
    const twice = figures([balance('2.5'), balance('2 1/2', OTHER_PHONE)])
    expect([shown(twice.orderedYards), twice.oddities]).toEqual(['5', ['order-said-twice']])
    expect(figures([balance('2.5'), balance('2.5')]).oddities).toEqual([])
    expect(figures([balance('2.5'), balance('3', OTHER_PHONE)]).oddities).toEqual([])
  })
})
