import { describe, expect, test } from 'vitest'
import type { Happening } from '../../../api/domain/entry/make.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { showNumber } from '../../../api/domain/units.ts'
import { entry, FIRST, given, JOB, ticket } from './pour.ts'

type Mix = Happening<'mix.ordered'>['body']
const mix = (body: Mix) => entry('mix.ordered', body)
const cone = (text: string, unit: 'in' | 'mm' = 'in') =>
  entry('slump.measured', { load: FIRST, slump: given(text, unit), how: 'cone' })
const air = (text: string, correction?: string) =>
  entry('air.measured', {
    load: FIRST,
    air: given(text, 'pct'),
    ...(correction === undefined ? {} : { aggregateCorrection: given(correction, 'pct') }),
  })
const checks = (entries: readonly KnownEntry[]) =>
  jobFigures(foldJob(JOB, entries)).loads[0]!.tolerances.map(
    ({ value, from, to, statedBy, byEye, verdict }) => ({
      value: showNumber(value),
      ends: `${from ? showNumber(from) : ''}–${to ? showNumber(to) : ''}`,
      statedBy,
      byEye,
      verdict,
    }),
  )
const verdicts = (entries: readonly KnownEntry[]) => checks(entries).map(({ verdict }) => verdict)

/** 4 ± 1 in, and air of 6.5 (5–8) %: as the scenario's order has it. */
const ordered = mix({
  slump: { is: 'target', target: given('4', 'in'), tolerance: given('1', 'in') },
  air: { is: 'given', target: given('6.5', 'pct'), from: given('5', 'pct'), to: given('8', 'pct') },
})

/**
 * Air of 6.5 ± 1.5 %: Des Moines Metro Concrete Council, mix recommendations (exterior slabs, at delivery). Air less the
 * aggregate correction: ASTM C231 by AASHTO re:source, "Aggregate correction factors" (2016): 4.0 less 0.3 against 4–6.
 */
const AIR: readonly (readonly [string, string, string | undefined, string, string, 'inside' | 'outside'])[] =
  [
    ['5.0', '8.0', undefined, '4.9', '4.9', 'outside'],
    ['5.0', '8.0', undefined, '5.0', '5', 'inside'],
    ['5.0', '8.0', undefined, '8.0', '8', 'inside'],
    ['5.0', '8.0', undefined, '8.1', '8.1', 'outside'],
    ['4.0', '6.0', '0.3', '4.0', '3.7', 'outside'],
    ['4.0', '6.0', undefined, '4.0', '4', 'inside'],
  ]

describe('[tolerance] a reading against what was asked for', () => {
  for (const [from, to, correction, reading, value, verdict] of AIR)
    test(`[tolerance] air ${reading} less ${correction ?? 'nothing'} is ${verdict} of ${from}–${to}`, () => {
      const asked = mix({ air: { is: 'given', from: given(from, 'pct'), to: given(to, 'pct') } })
      expect(checks([asked, air(reading, correction)])).toMatchObject([{ value, verdict }])
    })

  test('[tolerance] the ends of 4 ± 1 in are inside, a quarter inch beyond is outside', () => {
    const of = (text: string) => verdicts([ordered, cone(text)])[0]
    expect(['2 3/4', '3', '4 1/4', '5', '5 1/4'].map(of)).toEqual([
      'outside',
      'inside',
      'inside',
      'inside',
      'outside',
    ])
    expect(verdicts([ordered, cone('127', 'mm'), cone('128', 'mm')]).sort()).toEqual(['inside', 'outside'])
  })

  test('[tolerance] “at most” has no lower end', () => {
    const most = mix({ slump: { is: 'most', most: given('4', 'in') } })
    expect(checks([most, cone('1')])).toMatchObject([{ ends: '–4', verdict: 'inside' }])
    expect(verdicts([most, cone('4 1/4')])).toEqual(['outside'])
  })

  test('[tolerance] a target without a tolerance, or nothing at all, states no limit: none is assumed', () => {
    const target = mix({
      slump: { is: 'target', target: given('4', 'in') },
      air: { is: 'given', target: given('6.5', 'pct') },
    })
    for (const asked of [[target], [mix({ slump: { is: 'not-stated' } })], []])
      expect(verdicts([...asked, cone('9'), air('2')])).toEqual(['limit-not-stated', 'limit-not-stated'])
  })

  test('[tolerance] the order goes before the ticket; the ticket serves where the order says nothing', () => {
    const printed = ticket({ slump: { is: 'target', target: given('6', 'in'), tolerance: given('1', 'in') } })
    expect(checks([ordered, printed, cone('4')])).toMatchObject([{ ends: '3–5', statedBy: 'order' }])
    expect(checks([printed, cone('4')])).toMatchObject([
      { ends: '5–7', statedBy: 'ticket', verdict: 'outside' },
    ])
  })

  test('[tolerance] a slump judged by eye says so beside its verdict; none taken has none', () => {
    const eye = entry('slump.measured', { load: FIRST, slump: given('2 1/2', 'in'), how: 'by-eye' })
    expect(checks([ordered, eye])).toMatchObject([{ byEye: true, verdict: 'outside' }])
    expect(checks([ordered, cone('4')])).toMatchObject([{ byEye: false }])
    expect(checks([ordered, entry('slump.measured', { load: FIRST, slump: { is: 'not-taken' } })])).toEqual(
      [],
    )
  })

  test('[conflict] two orders that stand are each compared with', () => {
    const wetter = mix({ slump: { is: 'target', target: given('6', 'in'), tolerance: given('1', 'in') } })
    expect(verdicts([ordered, wetter, cone('4')]).sort()).toEqual(['inside', 'outside'])
  })
})
