import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { GapCode, JobGap } from '../../../api/domain/job/missing.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { at, DRIVE, entry, FIRST, given, JOB, PATIO, SECOND, stamp, ticket } from './pour.ts'

const gapsOf = (entries: readonly KnownEntry[], gap: GapCode): readonly JobGap[] =>
  jobFigures(foldJob(JOB, entries)).gaps.filter((one) => one.gap === gap)

const side = { length: given('40', 'ft'), width: given('20', 'ft'), thickness: given('5', 'in') }
const plan = entry('placement.planned', {
  placement: '019db000-0000-7000-8000-0000000000f1',
  name: 'drive and patio',
  parts: [
    { part: DRIVE, name: 'drive', ...side },
    { part: PATIO, name: 'patio', ...side },
  ],
})
/** One load that was taken, of which nobody said more than when it ran. */
const load = [plan, stamp('discharge.started', '09:45'), stamp('discharge.ended', '10:19')]
const water = (clock: string, inDrum = true) =>
  entry(
    'water.added',
    {
      load: FIRST,
      amount: given('8', 'gal'),
      stage: 'after-discharge-began',
      ...(inDrum ? { inDrum: { yards: given('5', 'yd3'), how: 'by-eye' } } : {}),
    },
    { at: at(clock) },
  )
const late = ticket({ batchedAt: { is: 'given', at: at('08:21') } })
const signed = (curb?: 'signed' | 'left-blank') =>
  entry('ticket.signed', {
    load: FIRST,
    who: { called: 'Curt' },
    exception: { is: 'none' },
    ...(curb ? { curb } : {}),
  })
const slump = (clock: string, how: 'cone' | 'by-eye' = 'cone') =>
  entry('slump.measured', { load: FIRST, slump: given('4', 'in'), how }, { at: at(clock) })
const air = (clock: string) =>
  entry('air.measured', { load: FIRST, air: given('6', 'pct') }, { at: at(clock) })
const temperature = (of: 'concrete' | 'air' | 'surface', clock: string, more: { load?: string } = {}) =>
  entry(
    'temperature.measured',
    { of, temperature: { is: 'given', text: '66', unit: 'degF' }, ...more },
    { at: at(clock) },
  )
const finished = (step: 'bleed-water-gone' | 'jointing') =>
  entry('finish.done', { step }, { at: at('12:40') })

type Row = {
  /** What has it appear. */
  readonly open: readonly KnownEntry[]
  /** Any one of these, put beside, has it vanish. */
  readonly closedBy: readonly KnownEntry[]
}

/** Each gap by its code: the compiler asks for the line of a new one. */
const GAPS: Readonly<Record<Exclude<GapCode, 'nights' | 'curb-line'>, Row>> = {
  base: { open: load, closedBy: [entry('base.checked', { what: 'base', found: 'in-order' })] },
  depth: { open: load, closedBy: [entry('depth.measured', { depth: given('5', 'in') })] },
  weather: {
    open: load,
    closedBy: [
      entry('weather.observed', { source: 'by-feel' }),
      temperature('air', '07:00'),
      temperature('air', '07:51', { load: FIRST }),
    ],
  },
  'surface-temperature': { open: load, closedBy: [temperature('surface', '11:00')] },
  'bleed-water': { open: load, closedBy: [finished('bleed-water-gone')] },
  joints: { open: load, closedBy: [finished('jointing'), entry('joint.sawn', { phase: 'start' })] },
  cure: { open: load, closedBy: [entry('cure.applied', {})] },
  slump: { open: load, closedBy: [slump('09:44')] },
  air: { open: load, closedBy: [air('09:51')] },
  'concrete-temperature': { open: load, closedBy: [temperature('concrete', '09:44', { load: FIRST })] },
  cylinders: {
    open: load,
    closedBy: [
      entry('cylinders.made', { load: FIRST, number: { is: 'given', text: '4' } }),
      entry('cylinders.made', { load: FIRST, number: { is: 'none' } }),
    ],
  },
  'slump-after-water': { open: [...load, water('10:00'), slump('09:44')], closedBy: [slump('10:05')] },
  'air-after-water': { open: [...load, water('10:00'), air('09:51')], closedBy: [air('10:08')] },
  'in-drum': { open: [...load, water('10:00', false)], closedBy: [] },
  'where-placed': {
    open: load,
    closedBy: [entry('load.placed', { load: FIRST, places: [{ part: DRIVE }], how: 'by-eye' })],
  },
  'left-over': {
    open: load,
    closedBy: [entry('concrete.left', { load: FIRST, yards: { is: 'none' }, how: 'by-eye' })],
  },
  waiver: {
    open: [...load, late],
    closedBy: [entry('limit.waived', { load: FIRST, who: { called: 'Curt' } })],
  },
  signature: { open: load, closedBy: [signed()] },
}

describe('[gaps] what a log leaves open appears as a gap, and vanishes with the entry that tells of it', () => {
  for (const [gap, { open, closedBy }] of Object.entries(GAPS) as [GapCode, Row][]) {
    test(`[gaps] ${gap} appears`, () => expect(gapsOf(open, gap).length).toBeGreaterThan(0))
    for (const entry of closedBy)
      test(`[gaps] ${gap} vanishes by ${entry.entry.kind}`, () => {
        expect(gapsOf([...open, entry], gap)).toEqual([])
        expect(gapsOf([...open, entry, withdrawn(entry)], gap).length).toBeGreaterThan(0)
      })
  }

  test('[gaps] in the drum vanishes where the addition says it', () => {
    expect(gapsOf([...load, water('10:00')], 'in-drum')).toEqual([])
    const byTimes = entry('water.added', { load: FIRST, amount: given('8', 'gal') }, { at: at('10:00') })
    expect(gapsOf([...load, byTimes], 'in-drum')).toMatchObject([{ is: 'not-recorded', load: FIRST }])
  })

  test('[gaps] a curb line left blank is a gap; signed, or of which nobody spoke, is none', () => {
    expect(gapsOf([...load, signed('left-blank')], 'curb-line')).toEqual([
      { gap: 'curb-line', is: 'left-blank', load: FIRST },
    ])
    for (const said of [signed('signed'), signed()]) expect(gapsOf([...load, said], 'curb-line')).toEqual([])
  })
})

const withdrawn = (e: KnownEntry) => entry('entry.withdrawn', {}, { corrects: [e.hash] })

describe('[gaps] not recorded, not taken and by eye are three', () => {
  const slumpIs = (...said: readonly KnownEntry[]) => gapsOf([...load, ...said], 'slump').map(({ is }) => is)
  const notTaken = entry('slump.measured', { load: FIRST, slump: { is: 'not-taken' } }, { at: at('09:50') })
  test('[gaps] a slump judged by eye is no measured one', () => {
    expect(slumpIs()).toEqual(['not-recorded'])
    expect(slumpIs(notTaken)).toEqual(['not-taken'])
    expect(slumpIs(slump('09:39', 'by-eye'), notTaken)).toEqual(['by-eye'])
    expect(slumpIs(slump('09:39', 'by-eye'), slump('09:44'))).toEqual([])
  })

  test('[gaps] after the last water: a later sample, never one that is said to be from before it', () => {
    const afterwards = (...said: readonly KnownEntry[]) =>
      gapsOf([...load, water('09:40'), water('10:00'), ...said], 'slump-after-water').map(({ is }) => is)
    const sampled = (clock: string, against?: 'before' | 'after') =>
      entry(
        'slump.measured',
        {
          load: FIRST,
          slump: given('4', 'in'),
          how: 'cone',
          taking: { sampledAt: at(clock), ...(against ? { water: against } : {}) },
        },
        { at: at('10:30') },
      )
    expect(afterwards(slump('09:44'))).toEqual(['not-recorded'])
    expect(afterwards(sampled('09:59'))).toEqual(['not-recorded'])
    expect(afterwards(sampled('10:00'))).toEqual(['not-recorded'])
    expect(afterwards(sampled('10:00', 'after'))).toEqual([])
    expect(afterwards(sampled('10:01'))).toEqual([])
    expect(afterwards(sampled('10:01', 'before'))).toEqual(['not-recorded'])
    expect(afterwards(slump('10:05', 'by-eye'))).toEqual(['by-eye'])
  })
})

describe('[gaps] of which part and which load', () => {
  test('[gaps] a part of which nobody spoke stays open while another is told of', () => {
    const curedDrive = entry('cure.applied', { parts: [DRIVE] })
    expect(gapsOf(load, 'cure')).toMatchObject([{ part: DRIVE }, { part: PATIO }])
    expect(gapsOf([...load, curedDrive], 'cure')).toMatchObject([{ part: PATIO }])
  })

  test('[gaps] a part that no load is said to fill is not asked after', () => {
    const placed = entry('load.placed', { load: FIRST, places: [{ part: DRIVE }], how: 'by-eye' })
    expect(gapsOf([...load, placed], 'cure')).toMatchObject([{ part: DRIVE }])
  })

  test('[gaps] a load that was sent back is not asked after; one whose discharge had begun is', () => {
    const rejected = entry('load.rejected', { load: SECOND, reason: 'slump' })
    const arrived = stamp('load.arrived', '10:47', SECOND)
    const of = (...said: readonly KnownEntry[]) =>
      gapsOf([...load, ...said], 'signature').map((gap) => gap.load)
    expect(of(arrived)).toEqual([FIRST, SECOND])
    expect(of(arrived, rejected)).toEqual([FIRST])
    expect(of(arrived, rejected, stamp('discharge.started', '10:52', SECOND))).toEqual([FIRST, SECOND])
  })

  test('[gaps] no waiver is looked for where no limit is passed, stated or known to be', () => {
    const inTime = ticket({ batchedAt: { is: 'given', at: at('09:00') } })
    const unstated = ticket({ limit: { is: 'not-stated' } })
    for (const known of [[inTime], [unstated], []]) expect(gapsOf([...load, ...known], 'waiver')).toEqual([])
  })

  test('[gaps] a limit that was waived late is still outside, and only the waiver is no gap', () => {
    const waived = entry('limit.waived', { load: FIRST, who: { called: 'Curt' } }, { at: at('10:40') })
    const figures = jobFigures(foldJob(JOB, [...load, late, waived]))
    expect(figures.loads[0]!.limit).toMatchObject({ verdict: 'outside', checks: [{ minutes: 118 }] })
    expect(gapsOf([...load, late, waived], 'waiver')).toEqual([])
  })
})
