import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { showNumber } from '../../../api/domain/units.ts'
import { at, entry, FIRST, given, JOB, OTHER_PHONE, SECOND, stamp } from './pour.ts'

const joined = (...ids: readonly string[]) => entry('loads.joined', { loads: [...ids] })
const withdrawn = (...corrects: readonly string[]) => entry('entry.withdrawn', {}, { corrects })

describe('[twice] water that two phones told', () => {
  const water = (load: string, clock: string, text: string, device?: string) =>
    entry(
      'water.added',
      { load, amount: given(text, 'gal') },
      { at: at(clock), ...(device ? { device } : {}) },
    )
  const first = (entries: readonly KnownEntry[]) => {
    const { water: figure, oddities } = jobFigures(foldJob(JOB, entries)).loads[0]!
    return [figure.is === 'given' ? showNumber(figure.gallons) : figure.is, oddities]
  }
  const join = joined(FIRST, SECOND)

  test('[twice] as much of it within ten minutes: the sum holds both and says that they look like one', () => {
    const flagged = ['24', ['water-said-twice']]
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:42', '12.0', OTHER_PHONE)])).toEqual(flagged)
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:50', '12', OTHER_PHONE)])).toEqual(flagged)
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:40', '12')])).toEqual(flagged)
  })

  test('[twice] under two loads that were joined, of whatever amounts', () => {
    const told = [water(FIRST, '09:40', '12'), water(SECOND, '09:43', '11', OTHER_PHONE)]
    expect(first(told)).toEqual(['12', []])
    expect(first([...told, join])).toEqual(['23', ['water-said-twice']])
    expect(first([...told, join, withdrawn(told[1]!.hash)])).toEqual(['12', []])
  })

  test('[twice] not where one phone told of two, nor further apart, nor of none', () => {
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:42', '12')])).toEqual(['24', []])
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:51', '12', OTHER_PHONE)])).toEqual(['24', []])
    expect(first([water(FIRST, '09:40', '12'), water(FIRST, '09:42', '8', OTHER_PHONE)])).toEqual(['20', []])
    expect(first([water(FIRST, '09:40', '12'), water(SECOND, '10:00', '8', OTHER_PHONE), join])).toEqual([
      '20',
      [],
    ])
    expect(first([water(FIRST, '09:40', '0'), water(FIRST, '09:41', '0', OTHER_PHONE)])).toEqual(['0', []])
  })
})

describe('[water] none and some', () => {
  const said = (amount: 'none' | '8', stage?: 'before-discharge' | 'after-discharge-began') =>
    entry(
      'water.added',
      {
        load: FIRST,
        amount: amount === 'none' ? { is: 'none' } : given(amount, 'gal'),
        ...(stage ? { stage } : {}),
      },
      { at: at(amount === 'none' ? '09:40' : '10:00') },
    )
  const odd = (...entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries)).loads[0]!.oddities
  test('[water] none before discharge and some after it began are no two answers to one question', () => {
    expect(odd(said('none', 'before-discharge'), said('8', 'after-discharge-began'))).toEqual([])
    const start = stamp('discharge.started', '09:45')
    expect(odd(said('none', 'before-discharge'), said('8'), start)).toEqual([])
    expect(odd(said('none', 'before-discharge'), said('8'))).toEqual(['water-none-and-some'])
    expect(odd(said('none'), said('8', 'after-discharge-began'))).toEqual(['water-none-and-some'])
    expect(odd(said('none', 'before-discharge'), said('8', 'before-discharge'))).toEqual([
      'water-none-and-some',
    ])
  })
})

test('[clocks] whatever is said of a load to have happened after it was recorded is flagged', () => {
  const early = { at: at('10:25'), recordedAt: at('09:00') }
  for (const said of [
    entry('ticket.signed', { load: FIRST, who: { called: 'Curt' }, exception: { is: 'none' } }, early),
    entry('cylinders.made', { load: FIRST, number: { is: 'none' } }, early),
    entry('remark.made', { load: FIRST, remark: { lang: 'en', text: 'late' } }, early),
  ])
    expect(jobFigures(foldJob(JOB, [said])).loads[0]!.oddities).toEqual(['time-ahead'])
})

describe('[clocks] the order of a load’s day', () => {
  const odd = (...entries: readonly KnownEntry[]) => jobFigures(foldJob(JOB, entries)).loads[0]!.oddities
  const batch = (clock: string, leftPlant?: string) =>
    entry('ticket.recorded', {
      load: FIRST,
      number: { is: 'not-stated' },
      truck: { is: 'not-stated' },
      yards: { is: 'not-stated' },
      batchedAt: { is: 'given', at: at(clock) },
      limit: { is: 'not-stated' },
      ...(leftPlant === undefined ? {} : { leftPlantAt: { is: 'given', at: at(leftPlant) } }),
    })
  const paused = (clock: string) => entry('discharge.paused', { load: FIRST }, { at: at(clock) })

  test('[clocks] batched, left the plant, arrived, started, paused, ended, left: any step back is flagged', () => {
    const inOrder = [
      batch('08:21', '08:29'),
      stamp('load.arrived', '09:38'),
      stamp('discharge.started', '09:45'),
      paused('09:58'),
      stamp('discharge.ended', '10:19'),
      stamp('load.left', '10:25'),
    ]
    expect(odd(...inOrder)).toEqual([])
    const back = ['times-backwards']
    expect(odd(batch('08:21', '08:12'))).toEqual(back)
    expect(odd(batch('07:50'), stamp('load.arrived', '07:33'))).toEqual(back)
    expect(odd(batch('08:21', '09:40'), stamp('load.arrived', '09:38'))).toEqual(back)
    const early = { at: at('08:20') }
    expect(
      odd(batch('08:21'), entry('water.added', { load: FIRST, amount: given('3', 'gal') }, early)),
    ).toEqual(back)
    expect(odd(paused('09:44'), stamp('discharge.started', '09:45'))).toEqual(back)
    expect(odd(paused('10:20'), stamp('discharge.ended', '10:19'))).toEqual(back)
    expect(odd(stamp('discharge.ended', '10:26'), stamp('load.left', '10:25'))).toEqual(back)
  })

  test('[clocks] an answer of none, or not taken, is no event of the day: it may be given after the truck left', () => {
    const left = stamp('load.left', '10:25')
    const later = { at: at('10:40') }
    expect(odd(left, entry('water.added', { load: FIRST, amount: { is: 'none' } }, later))).toEqual([])
    expect(odd(left, entry('slump.measured', { load: FIRST, slump: { is: 'not-taken' } }, later))).toEqual([])
    expect(odd(left, entry('water.added', { load: FIRST, amount: given('3', 'gal') }, later))).toEqual([
      'times-backwards',
    ])
    const slump = { load: FIRST, slump: given('4', 'in'), how: 'cone' } as const
    expect(odd(left, entry('slump.measured', slump, later))).toEqual(['times-backwards'])
    const sampled = { ...slump, taking: { sampledAt: at('10:20') } }
    expect(odd(left, entry('slump.measured', sampled, later))).toEqual([])
  })
})
