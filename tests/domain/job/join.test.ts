import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import { joinedLoads } from '../../../api/domain/job/join.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { at, entry, FIRST, JOB, OTHER_PHONE, SECOND, stamp, THIRD } from './pour.ts'

const loads = (entries: readonly KnownEntry[]) =>
  foldJob(JOB, entries).loads.map(({ id, joined }) => [id, ...joined])
const joined = (...ids: readonly string[]) => entry('loads.joined', { loads: [...ids] })
const withdrawn = (...corrects: readonly string[]) => entry('entry.withdrawn', {}, { corrects })

describe('[join] two loads that are one truck', () => {
  const told = [
    stamp('load.arrived', '07:33', FIRST),
    stamp('load.arrived', '07:34', SECOND),
    stamp('load.left', '08:14', THIRD),
  ]

  test('[join] are one load with what was said of both, and parted again by taking the join back', () => {
    const join = joined(SECOND, FIRST)
    expect(loads(told)).toEqual([[FIRST], [SECOND], [THIRD]])
    expect(loads([...told, join])).toEqual([[FIRST, SECOND], [THIRD]])
    expect(jobFigures(foldJob(JOB, [...told, join])).loads[0]!.oddities).toContain('several-answers')
    expect(loads([...told, join, withdrawn(join.hash)])).toEqual([[FIRST], [SECOND], [THIRD]])
  })

  test('[join] two that say the same, to the printed minute, are no two answers, and leave the edges known', () => {
    const twice = (kind: 'discharge.started' | 'discharge.ended', clock: string) => [
      entry(kind, { load: FIRST }, { at: at(`${clock}:12`) }),
      entry(kind, { load: SECOND }, { at: at(`${clock}:48`), device: OTHER_PHONE }),
    ]
    const day = [...twice('discharge.started', '07:41'), ...twice('discharge.ended', '08:08')]
    const next = stamp('discharge.started', '09:45', THIRD)
    const figures = jobFigures(foldJob(JOB, [...day, next, joined(FIRST, SECOND)]))
    expect(figures.loads[0]!.oddities).toEqual([])
    expect(figures.edgeGaps).toEqual([{ from: FIRST, to: THIRD, minutes: 97 }])
  })

  test('[join] reaches on: joined with one that is joined with another', () => {
    const [a, b] = [joined(FIRST, SECOND), joined(SECOND, THIRD)]
    expect(loads([...told, a, b])).toEqual([[FIRST, SECOND, THIRD]])
    expect(loads([...told, a, b, withdrawn(a.hash)])).toEqual([[FIRST], [SECOND, THIRD]])
  })

  test('[join] two ids stand for one load if and only if a way of joins leads between them, in any order of joins', () => {
    const ids = ['a', 'b', 'c', 'd', 'e', 'f']
    const joins = fc.array(fc.subarray(ids, { minLength: 2, maxLength: 4 }), { maxLength: 5 })
    fc.assert(
      fc.property(joins, (all) => {
        const reached = (from: string): string => {
          const seen = new Set([from])
          for (const id of seen)
            for (const join of all) if (join.includes(id)) for (const next of join) seen.add(next)
          return [...seen].sort()[0]!
        }
        const [straight, back] = [joinedLoads(all), joinedLoads(all.toReversed())]
        expect(ids.map(straight)).toEqual(ids.map(reached))
        expect(ids.map(back)).toEqual(ids.map(reached))
      }),
      { seed: 71340 },
    )
  })
})
