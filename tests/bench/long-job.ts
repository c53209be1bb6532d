import type { KnownEntry } from '../../api/domain/job/standing.ts'
import { entry, JOB, ticket } from '../domain/job/pour.ts'

const clock = (minute: number): string => {
  const day = 1 + Math.floor(minute / 600)
  const m = minute % 600
  const hour = String(6 + Math.floor(m / 60)).padStart(2, '0')
  return `2026-06-${String(day).padStart(2, '0')}T${hour}:${String(m % 60).padStart(2, '0')}-05:00`
}

/** A job of so many entries, forty a load, as a crew logs them; each eighth entry corrects one before it. */
export const longJob = (count: number): { readonly job: string; readonly entries: readonly KnownEntry[] } => {
  const entries: KnownEntry[] = [entry('job.opened', { name: 'Long', zone: 'America/Chicago' })]
  for (let n = 0; entries.length < count; n++) {
    const load = `019db000-0000-7000-8000-${n.toString(16).padStart(12, '0')}`
    const at = (after: number) => ({ at: clock(n * 30 + after) })
    const gallons = (text: string, corrects: readonly string[] = []) =>
      entry('water.added', { load, amount: { is: 'given', text, unit: 'gal' } }, { ...at(8), corrects })
    const more: KnownEntry[] = [
      entry('load.arrived', { load }, at(0)),
      ticket({ load, number: { is: 'given', text: String(71_340 + n) } }, at(2)),
      entry('discharge.started', { load }, at(10)),
      entry('discharge.ended', { load }, at(28)),
      entry('load.left', { load }, at(29)),
    ]
    for (let i = 0; i < 4; i++) {
      const first = gallons(String(1 + i))
      more.push(first, gallons(String(2 + i), [first.hash]))
    }
    while (more.length < 40)
      more.push(entry('remark.made', { remark: { lang: 'en', text: `Bay ${more.length}` } }, at(12)))
    entries.push(...more.slice(0, count - entries.length))
  }
  return { job: JOB, entries }
}
