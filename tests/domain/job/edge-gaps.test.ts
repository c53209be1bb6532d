import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { at, DRIVE, entry, FIRST, JOB, PATIO, SECOND, stamp, THIRD, ticket, WALK } from './pour.ts'

const NAMES: Readonly<Record<string, string>> = { [FIRST]: 'first', [SECOND]: 'second', [THIRD]: 'third' }
/** `first → second: 97`. */
const gaps = (entries: readonly KnownEntry[]) =>
  jobFigures(foldJob(JOB, entries)).edgeGaps.map(
    ({ from, to, minutes }) => `${NAMES[from]} → ${NAMES[to]}: ${minutes}`,
  )
const poured = (load: string, from: string, to: string) => [
  stamp('discharge.started', from, load),
  stamp('discharge.ended', to, load),
]
const placed = (load: string, ...parts: readonly string[]) =>
  entry('load.placed', { load, places: parts.map((part) => ({ part })), how: 'by-eye' })

/** The scenario: load 1 7:41–8:08, load 2 9:45–10:19, load 3 10:52–11:03. */
const first = poured(FIRST, '07:41', '08:08')
const second = poured(SECOND, '09:45', '10:19')
const third = poured(THIRD, '10:52', '11:03')

describe('[edge] minutes from one load’s end to the next one’s start', () => {
  test('[edge] 97 between loads 1 and 2, 33 between 2 and 3', () => {
    const all = ['first → second: 97', 'second → third: 33']
    expect(gaps([...first, ...second, ...third])).toEqual(all)
    // Where each went, as the scenario has it.
    const went = [placed(FIRST, DRIVE), placed(SECOND, DRIVE, WALK, PATIO), placed(THIRD, PATIO)]
    expect(gaps([...first, ...second, ...third, ...went])).toEqual(all)
  })

  test('[edge] loads that went to other parts leave each other no edge; the next one there does', () => {
    const went = [placed(FIRST, DRIVE), placed(SECOND, PATIO), placed(THIRD, DRIVE)]
    expect(gaps([...first, ...second, ...third, ...went])).toEqual(['first → third: 164'])
  })

  test('[edge] a load of which nobody said where it went may have kept any edge alive', () => {
    const went = [placed(FIRST, DRIVE), placed(THIRD, DRIVE)]
    expect(gaps([...first, ...second, ...third, ...went])).toEqual([
      'first → second: 97',
      'second → third: 33',
    ])
  })

  test('[edge] a load in between without its times makes the gap unknown, not longer', () => {
    const between = stamp('load.arrived', '09:38', SECOND)
    expect(gaps([...first, between, ...third])).toEqual([])
    expect(gaps([...first, between, stamp('discharge.started', '09:45', SECOND), ...third])).toEqual([
      'first → second: 97',
    ])
    const twoEnds = [...second, stamp('discharge.ended', '10:25', SECOND)]
    expect(gaps([...first, ...twoEnds, ...third])).toEqual(['first → second: 97'])
  })

  test('[edge] a load that came later, left before, or was sent back, is not in between', () => {
    expect(gaps([...first, ...second, stamp('load.arrived', '10:47', THIRD)])).toEqual(['first → second: 97'])
    const batched = ticket({ load: THIRD, batchedAt: { is: 'given', at: at('10:20') } })
    expect(gaps([...first, ...second, batched])).toEqual(['first → second: 97'])
    expect(gaps([...second, ...third, stamp('load.left', '08:14', FIRST)])).toEqual(['second → third: 33'])
    const rejected = entry('load.rejected', { load: SECOND, reason: 'late' })
    expect(gaps([...first, stamp('load.arrived', '09:38', SECOND), rejected, ...third])).toEqual([
      'first → third: 164',
    ])
  })

  test('[edge] runs from the latest end before it, and where two loads overlap no edge stands', () => {
    expect(gaps([...poured(FIRST, '07:41', '08:40'), ...poured(SECOND, '08:00', '08:10'), ...third])).toEqual(
      ['first → third: 132'],
    )
  })
})
