import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { NO_MEMBERS } from '../../../api/domain/access/members.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry, LoggedEntry } from '../../../api/domain/job/standing.ts'
import { jobModel } from '../../../api/domain/record/job-model.ts'
import { showNumber } from '../../../api/domain/units.ts'
import { blankTicket, entry, FIRST, JOB, SECOND, ticket } from './pour.ts'

const view = (entries: readonly LoggedEntry[]) => foldJob(JOB, entries)
const figures = (entries: readonly LoggedEntry[]) => jobFigures(view(entries))
const firstLoad = (entries: readonly LoggedEntry[]) => figures(entries).loads[0]!
const model = (entries: readonly LoggedEntry[]) =>
  JSON.stringify(jobModel({ job: JOB, entries, members: NO_MEMBERS }))

const gallons = (text: string, corrects: readonly string[] = []) =>
  entry('water.added', { load: FIRST, amount: { is: 'given', text, unit: 'gal' } }, { corrects })
const named = (name: string, corrects: readonly string[] = []) =>
  entry('job.opened', { name, zone: 'America/Chicago' }, { corrects })
const withdrawn = (...corrects: readonly string[]) => entry('entry.withdrawn', {}, { corrects })
const namesOf = (entries: readonly LoggedEntry[]) =>
  view(entries)
    .name.map((said) => said.value)
    .sort()

/** An entry of a random job, made when those before it are known, so that it may correct some of them. */
type Step = (before: readonly KnownEntry[]) => KnownEntry
const minute = fc.integer({ min: 0, max: 600 }).map((m) => {
  const clock = `${String(6 + Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`
  return `2026-04-21T${clock}-05:00`
})
const load = fc.constantFrom(FIRST, SECOND)
const PHOTO = 'ab'.repeat(32)
const step: fc.Arbitrary<Step> = fc
  .record({
    what: fc.nat(11),
    load,
    at: minute,
    recordedAt: minute,
    number: fc.constantFrom('7 3/4', '8', '8.25', '10'),
    targets: fc.array(fc.nat(), { maxLength: 3 }),
    received: fc.option(fc.integer({ min: 0, max: 9_999 }), { nil: undefined }),
  })
  .map(
    ({ what, load, at, recordedAt, number, targets, received }): Step =>
      (before) => {
        const hashes = targets.flatMap((t) =>
          before.length > 0 && t % 3 > 0 ? [before[t % before.length]!.hash] : [],
        )
        const more = {
          at,
          recordedAt,
          corrects: hashes,
          ...(received === undefined ? {} : { receivedAt: received }),
        }
        const makers: readonly (() => KnownEntry)[] = [
          () => entry('load.arrived', { load }, more),
          () => entry('discharge.started', { load }, more),
          () => entry('discharge.ended', { load }, more),
          () => entry('load.left', { load }, more),
          () => entry('water.added', { load, amount: { is: 'given', text: number, unit: 'gal' } }, more),
          () => entry('water.added', { load, amount: { is: 'none' } }, more),
          () => ticket({ load, yards: { is: 'given', text: number, unit: 'yd3' } }, more),
          () => entry('concrete.ordered', { yards: { is: 'given', text: number, unit: 'm3' } }, more),
          () => entry('remark.made', { remark: { lang: 'es', text: 'Ya vació' }, load }, more),
          () =>
            entry('photo.taken', { photo: PHOTO, bytes: 9, type: 'image/jpeg', shows: 'load', load }, more),
          () => entry('photo.received', { photo: PHOTO, bytes: 9 }, { at }),
          () =>
            hashes.length > 0 ? entry('entry.withdrawn', {}, more) : entry('load.arrived', { load }, more),
        ]
        return makers[what]!()
      },
  )
const job = fc.array(step, { minLength: 1, maxLength: 16 }).map((steps) => {
  const entries: KnownEntry[] = []
  for (const make of steps) entries.push(make(entries))
  return entries
})

describe('[L7] the view of a job is a function of the set of its entries', () => {
  test('[L7] order and repeats make no difference to view, figures and model', () => {
    const unread: LoggedEntry = { hash: 'ff'.repeat(32), newer: 2 }
    const shuffled = job.chain((entries) =>
      fc.tuple(
        fc.constant([...entries, unread]),
        fc.shuffledSubarray([...entries, ...entries, unread, unread], {
          minLength: 2 * entries.length + 2,
          maxLength: 2 * entries.length + 2,
        }),
      ),
    )
    fc.assert(
      fc.property(shuffled, ([entries, other]) => {
        expect(view(other)).toEqual(view(entries))
        expect(figures(other)).toEqual(figures(entries))
        expect(model(other)).toBe(model(entries))
      }),
      { numRuns: 150, seed: 71340 },
    )
  })

  test('[L7] an entry that is one’s own and was received too counts once, with its time of receipt', () => {
    const own = gallons('3')
    const received = { ...own, receivedAt: 1_776_000_000_000 }
    for (const entries of [
      [own, received],
      [received, own],
    ]) {
      const { loads, history } = view(entries)
      expect(loads[0]!.water.length).toBe(1)
      expect(history.map((line) => line.receivedAt)).toEqual([1_776_000_000_000])
    }
  })

  test('[L7] an entry is in force unless withdrawn by one in force, and stands unless named by one in force', () => {
    fc.assert(
      fc.property(job, (entries) => {
        const lines = new Map(view(entries).history.map((line) => [line.hash, line]))
        for (const { hash } of entries) {
          const by = entries.filter((e) => e.entry.corrects?.includes(hash) && lines.get(e.hash)!.inForce)
          const withdrawn = by.some((e) => e.entry.kind === 'entry.withdrawn')
          expect(lines.get(hash)).toMatchObject({ inForce: !withdrawn, stands: by.length === 0 })
        }
      }),
      { numRuns: 100, seed: 71340 },
    )
  })

  test('[L9] entries of a later release are counted, each once, and change nothing else', () => {
    const entries = [named('Tern Court'), gallons('3')]
    const unread: LoggedEntry[] = [1, 1, 2].map((n) => ({ hash: String(n).repeat(64), newer: 2 }))
    expect(view([...entries, ...unread])).toEqual({ ...view(entries), unread: 2 })
  })
})

describe('[L7, L8] corrections', () => {
  test('[L7] of a chain of corrections the last stands, and all of them are in the history', () => {
    const chain = [named('Tern Ct')]
    for (const name of ['Tern Crt', 'Tern Court', 'Tern Court east'])
      chain.push(named(name, [chain.at(-1)!.hash]))
    expect(namesOf(chain)).toEqual(['Tern Court east'])
    expect(view(chain).history.length).toBe(4)
  })

  test('[L7] a value that was corrected twice is not added to its own correction', () => {
    const first = gallons('3')
    const second = gallons('5', [first.hash])
    const third = gallons('8', [second.hash])
    const waterOf = (entries: readonly KnownEntry[]) => {
      const { water } = firstLoad(entries)
      return water.is === 'given' ? showNumber(water.gallons) : water.is
    }
    expect(waterOf([first, second, third])).toBe('8')
    expect(waterOf([first, second, third, withdrawn(third.hash)])).toBe('5')
  })

  test('[L7] a chain of two thousand corrections, or withdrawals, is folded too', () => {
    const chain = [gallons('1')]
    for (let i = 0; i < 2_000; i++) chain.push(gallons('1', [chain.at(-1)!.hash]))
    expect(view(chain.toReversed()).loads[0]!.water.map((said) => said.hash)).toEqual([chain.at(-1)!.hash])
    const undone = [gallons('1')]
    for (let i = 0; i < 2_000; i++) undone.push(withdrawn(undone.at(-1)!.hash))
    expect(view(undone.toReversed()).loads[0]!.water.length).toBe(1)
    expect(view(undone.slice(0, -1)).loads).toEqual([])
  })

  test('[L8] withdrawing says nothing in its place, and withdrawing a correction restores what it took down', () => {
    const first = named('Tern Court')
    const correction = named('Heron Court', [first.hash])
    const undone = withdrawn(correction.hash)
    expect(namesOf([first, withdrawn(first.hash)])).toEqual([])
    expect(namesOf([first, correction])).toEqual(['Heron Court'])
    expect(namesOf([first, correction, undone])).toEqual(['Tern Court'])
    expect(namesOf([first, correction, undone, withdrawn(undone.hash)])).toEqual(['Heron Court'])
  })

  test('[L7] two corrections of one entry are a conflict: both stand, until one entry names both', () => {
    const first = gallons('3')
    const [curt, beto] = [gallons('5', [first.hash]), gallons('8', [first.hash])]
    const texts = (entries: KnownEntry[]) =>
      view(entries)
        .loads[0]!.water.map(({ value: { amount } }) => (amount.is === 'given' ? amount.text : amount.is))
        .sort()
    expect(texts([first, curt, beto])).toEqual(['5', '8'])
    const half = gallons('6', [curt.hash])
    expect(texts([first, curt, beto, half])).toEqual(['6', '8'])
    const settled = gallons('5', [curt.hash, beto.hash])
    expect(texts([first, curt, beto, settled])).toEqual(['5'])
    expect(texts([first, curt, beto, settled, withdrawn(settled.hash)])).toEqual(['5', '8'])
  })

  test('[conflict] several answers to a question with one answer are all shown, and flagged', () => {
    const arrivals = [
      entry('load.arrived', { load: FIRST }, { at: '2026-04-21T07:30-05:00' }),
      entry('load.arrived', { load: FIRST }, { at: '2026-04-21T07:34-05:00' }),
    ]
    const left = entry('load.left', { load: FIRST }, { at: '2026-04-21T08:00-05:00' })
    const { onSite, oddities } = firstLoad([...arrivals, left])
    expect(onSite).toEqual({ minutes: [26, 30], backwards: false })
    expect(oddities).toEqual(['several-answers'])
  })

  test('[L7] what corrects an entry that is not here takes nothing down', () => {
    expect(namesOf([named('Tern Court'), withdrawn('0'.repeat(64))])).toEqual(['Tern Court'])
  })
})

test('[late] late is more than ten minutes from occurring to recording, to the millisecond', () => {
  const at = '2026-04-21T07:00:00-05:00'
  const late = (recordedAt: string) =>
    view([entry('load.arrived', { load: FIRST }, { at, recordedAt })]).history[0]!
  expect(late('2026-04-21T07:10:00-05:00')).toMatchObject({ late: false, delayMinutes: 10 })
  expect(late('2026-04-21T07:10:00.001-05:00')).toMatchObject({ late: true, delayMinutes: 10 })
  expect(late('2026-04-21T08:10:00-04:00')).toMatchObject({ late: false, delayMinutes: 10 })
  expect(late('2026-04-21T06:59:00-05:00')).toMatchObject({ late: false, delayMinutes: -1 })
})

describe('[loads] loads are numbered by arrival', () => {
  const arrived = (load: string, at: string, corrects: readonly string[] = []) =>
    entry('load.arrived', { load }, { at, corrects })
  const order = (entries: readonly KnownEntry[]) =>
    view(entries).loads.map(({ id, ordinal }) => [ordinal, id])

  test('[loads] whichever was logged first', () => {
    const entries = [arrived(SECOND, '2026-04-21T07:10-05:00'), arrived(FIRST, '2026-04-21T07:30-05:00')]
    expect(order(entries)).toEqual([
      [1, SECOND],
      [2, FIRST],
    ])
    // By the instant, not by the clock's text.
    expect(order([entries[0]!, arrived(FIRST, '2026-04-21T08:09-04:00')])[0]).toEqual([1, FIRST])
  })

  test('[loads] one whose arrival nobody logged, by the first thing said of it', () => {
    const entries = [
      arrived(FIRST, '2026-04-21T07:30-05:00'),
      ticket({ load: SECOND }, { at: '2026-04-21T07:20-05:00' }),
      ticket({ load: FIRST }, { at: '2026-04-21T07:00-05:00' }),
    ]
    expect(order(entries)).toEqual([
      [1, SECOND],
      [2, FIRST],
    ])
  })

  test('[loads] a corrected arrival moves the load', () => {
    const first = arrived(FIRST, '2026-04-21T07:00-05:00')
    const entries = [first, arrived(SECOND, '2026-04-21T07:10-05:00')]
    expect(order(entries)[0]).toEqual([1, FIRST])
    expect(order([...entries, arrived(FIRST, '2026-04-21T07:40-05:00', [first.hash])])[0]).toEqual([
      1,
      SECOND,
    ])
  })
})

/** Whole minutes by the numbers alone: no zone, no calendar, no code of ours. */
const plainMinutes = (from: string, to: string): number =>
  Math.floor(Date.parse(to) / 60_000) - Math.floor(Date.parse(from) / 60_000)

describe('[minutes] minutes from batching are those that passed, whatever the clock on the wall did', () => {
  const NIGHTS: readonly [string, string, string, number][] = [
    ['across midnight', '2026-04-21T23:40-05:00', '2026-04-22T00:25-05:00', 45],
    ['across the year’s end', '2026-12-31T23:30-06:00', '2027-01-01T00:15-06:00', 45],
    ['across the hour that the spring night skips', '2026-03-08T01:50-06:00', '2026-03-08T03:20-05:00', 30],
    ['across the hour that the fall night doubles', '2026-11-01T00:50-05:00', '2026-11-01T01:10-06:00', 80],
    [
      'within the doubled hour, backwards on the wall',
      '2026-11-01T01:50-05:00',
      '2026-11-01T01:10-06:00',
      20,
    ],
    ['cut to the printed minute', '2026-04-21T07:05:59-05:00', '2026-04-21T07:06:00-05:00', 1],
    ['within one printed minute', '2026-04-21T07:05:00-05:00', '2026-04-21T07:05:59.999-05:00', 0],
  ]
  for (const [name, from, to, minutes] of NIGHTS)
    test(`[minutes] ${name}: ${minutes}`, () => {
      expect(plainMinutes(from, to)).toBe(minutes)
      const entries = [
        ticket({ batchedAt: { is: 'given', at: from } }),
        entry('discharge.started', { load: FIRST }, { at: to }),
        entry('discharge.ended', { load: FIRST }, { at: to }),
      ]
      const { batchToStart, batchToEnd } = firstLoad(entries)
      expect(batchToStart).toEqual({ minutes: [minutes], backwards: false })
      expect(batchToEnd).toEqual({ minutes: [minutes], backwards: false })
    })

  test('[minutes] of any two times they are those of the instants', () => {
    const instant = fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2027, 0, 1) })
    const offset = fc.integer({ min: -12 * 60, max: 14 * 60 })
    const time = fc.tuple(instant, offset).map(([ms, minutes]) => {
      const wall = new Date(ms + minutes * 60_000).toISOString().slice(0, 23)
      const size = Math.abs(minutes)
      const two = (n: number) => String(Math.floor(n)).padStart(2, '0')
      return `${wall}${minutes < 0 ? '-' : '+'}${two(size / 60)}:${two(size % 60)}`
    })
    fc.assert(
      fc.property(time, time, (from, to) => {
        const entries = [
          entry('load.arrived', { load: FIRST }, { at: from }),
          entry('load.left', { load: FIRST }, { at: to }),
        ]
        const minutes = plainMinutes(from, to)
        expect(firstLoad(entries).onSite).toEqual({ minutes: [minutes], backwards: minutes < 0 })
      }),
      { numRuns: 300, seed: 71340 },
    )
  })
})

describe('[limit] a load is measured against what its own ticket prints', () => {
  const started = (at: string) =>
    entry('discharge.started', { load: FIRST }, { at: `2026-04-21T${at}-05:00` })
  const ended = (at: string) => entry('discharge.ended', { load: FIRST }, { at: `2026-04-21T${at}-05:00` })
  const limit = (text: string, to: 'discharge-started' | 'discharge-ended') =>
    ({ is: 'given', text, unit: 'min', to }) as const
  const verdictOf = (entries: readonly KnownEntry[]) => firstLoad(entries).limit

  test('[limit] the last minute is inside, the next is outside', () => {
    const t = ticket()
    const check = { to: 'discharge-ended', limitMinutes: 90, source: t.hash, statedBy: 'ticket' }
    expect(verdictOf([t, ended('08:35')])).toEqual({
      verdict: 'inside',
      checks: [{ ...check, minutes: 90, verdict: 'inside' }],
    })
    expect(verdictOf([t, ended('08:36')])).toEqual({
      verdict: 'outside',
      checks: [{ ...check, minutes: 91, verdict: 'outside' }],
    })
  })

  test('[limit] to the start or to the end of discharge, as the ticket has it', () => {
    const events = [started('08:00'), ended('08:40')]
    expect(verdictOf([ticket({ limit: limit('60', 'discharge-started') }), ...events])).toMatchObject({
      verdict: 'inside',
      checks: [{ to: 'discharge-started', minutes: 55 }],
    })
    expect(verdictOf([ticket({ limit: limit('60', 'discharge-ended') }), ...events])).toMatchObject({
      verdict: 'outside',
      checks: [{ to: 'discharge-ended', minutes: 95 }],
    })
  })

  test('[limit] a ticket that prints none has none: nobody’s 90 minutes are assumed', () => {
    expect(verdictOf([ticket({ limit: { is: 'not-stated' } }), ended('11:00')])).toEqual({
      verdict: 'limit-not-stated',
      checks: [],
    })
  })

  test('[limit] without a ticket, its event, or its batching time, nothing is recorded to measure', () => {
    const nothing = { verdict: 'not-recorded', checks: [] }
    expect(verdictOf([ended('08:35')])).toEqual(nothing)
    expect(verdictOf([ticket()])).toEqual(nothing)
    expect(verdictOf([ticket(), started('08:00')])).toEqual(nothing)
    expect(verdictOf([ticket({ batchedAt: { is: 'not-stated' } }), ended('08:35')])).toEqual(nothing)
  })

  test('[conflict] tickets that differ, and ends that differ, are each measured', () => {
    const tickets = [ticket(), ticket({ limit: limit('60', 'discharge-ended') })]
    const { verdict, checks } = verdictOf([...tickets, ended('08:10'), ended('08:20')])
    expect(verdict).toBe('outside')
    const lines = checks.map((c) => [c.limitMinutes, c.minutes, c.verdict])
    expect(lines.sort()).toEqual([
      [60, 65, 'outside'],
      [60, 75, 'outside'],
      [90, 65, 'inside'],
      [90, 75, 'inside'],
    ])
  })

  test('[clocks] times that run backwards are flagged and still computed', () => {
    const entries = [ticket(), started('06:50'), ended('06:40')]
    const load = firstLoad(entries)
    expect(load.batchToStart).toEqual({ minutes: [-15], backwards: true })
    expect(load.oddities).toEqual(['times-backwards'])
    expect(
      firstLoad([
        entry(
          'water.added',
          { load: FIRST, amount: { is: 'none' } },
          { at: '2026-04-21T23:40-05:00', recordedAt: '2026-04-21T19:00-05:00' },
        ),
      ]).oddities,
    ).toEqual(['time-ahead'])
    expect(firstLoad([started('07:30'), ended('07:20')]).oddities).toEqual(['times-backwards'])
    expect(
      firstLoad([entry('load.arrived', { load: FIRST }, { at: '2026-04-21T07:40-05:00' }), started('07:30')])
        .oddities,
    ).toEqual(['times-backwards'])
    const odd = [
      entry('load.arrived', { load: FIRST }, { at: '2026-04-21T08:00-05:00' }),
      entry('load.left', { load: FIRST }, { at: '2026-04-21T07:59-05:00' }),
    ]
    expect(firstLoad(odd)).toMatchObject({
      onSite: { minutes: [-1], backwards: true },
      oddities: ['times-backwards'],
    })
  })
})

describe('[water] none, so much, not sure and not recorded are four things', () => {
  const answer = (amount: 'none' | 'not-sure') =>
    entry('water.added', { load: FIRST, amount: { is: amount } })
  const arrived = entry('load.arrived', { load: FIRST })
  const waterOf = (entries: readonly KnownEntry[]) => {
    const { water, oddities, missing } = firstLoad([arrived, ...entries])
    const shown = water.is === 'given' ? { ...water, gallons: showNumber(water.gallons, 4) } : water
    return { water: shown, odd: oddities, missing: missing.includes('water') }
  }
  test('[water] no entry is not recorded', () =>
    expect(waterOf([])).toEqual({ water: { is: 'not-recorded' }, odd: [], missing: true }))
  test('[water] none is a fact', () =>
    expect(waterOf([answer('none')])).toEqual({ water: { is: 'none' }, odd: [], missing: false }))
  test('[water] not sure is neither', () => {
    expect(waterOf([answer('not-sure')]).water).toEqual({ is: 'not-sure' })
    expect(waterOf([answer('not-sure'), answer('none')]).water).toEqual({ is: 'not-sure' })
  })
  test('[water] amounts add up exactly, in the units that they were given in', () => {
    const litres = entry('water.added', { load: FIRST, amount: { is: 'given', text: '3.785411', unit: 'L' } })
    expect(waterOf([gallons('2 1/4'), gallons('0.75')])).toEqual({
      water: { is: 'given', gallons: '3', alsoNotSure: false, alsoNone: false },
      odd: [],
      missing: false,
    })
    expect(waterOf([litres]).water).toMatchObject({ gallons: '1' })
    expect(waterOf([gallons('3'), answer('not-sure')]).water).toMatchObject({
      gallons: '3',
      alsoNotSure: true,
    })
  })
  test('[water] none and some at once are both told, and flagged', () => {
    const { water, odd } = waterOf([gallons('3'), answer('none')])
    expect(water).toEqual({ is: 'given', gallons: '3', alsoNotSure: false, alsoNone: true })
    expect(odd).toEqual(['water-none-and-some'])
    expect(waterOf([gallons('0'), answer('none')]).odd).toEqual([])
  })
})

describe('[yards] ordered and ticketed', () => {
  const ordered = (text: string, unit: 'yd3' | 'm3' = 'yd3') =>
    entry('concrete.ordered', { yards: { is: 'given', text, unit } })
  const yards = (load: string, text: string, unit: 'yd3' | 'm3' = 'yd3') =>
    ticket({ load, yards: { is: 'given', text, unit } })
  const sums = (entries: readonly KnownEntry[]) => {
    const { orderedYards, ticketedYards, loadsWithoutYards, difference } = figures(entries)
    return {
      ordered: orderedYards && showNumber(orderedYards, 6),
      ticketed: showNumber(ticketedYards, 6),
      without: loadsWithoutYards,
      difference: difference && showNumber(difference, 6),
    }
  }
  test('[yards] fractions and decimals add up exactly', () => {
    const entries = [ordered('15'), ordered('1 1/2'), yards(FIRST, '7 3/4'), yards(SECOND, '8.25')]
    expect(sums(entries)).toEqual({ ordered: '16.5', ticketed: '16', without: 0, difference: '-0.5' })
  })
  test('[yards] thirds are exact: three of them make one', () => {
    expect(sums([ordered('1/3'), ordered('1/3'), ordered('1/3')]).ordered).toBe('1')
  })
  test('[yards] cubic metres count as the yards that they are', () => {
    expect(sums([ordered('10', 'm3')]).ordered).toBe('13.079506')
  })
  test('[yards] no order is no order, not an order of none', () => {
    expect(sums([yards(FIRST, '8')])).toEqual({
      ordered: undefined,
      ticketed: '8',
      without: 0,
      difference: undefined,
    })
  })
  test('[yards] a load without stated yards, or with two answers, is counted apart and not in the sum', () => {
    const unstated = ticket({ ...blankTicket, load: FIRST })
    expect(sums([unstated, yards(SECOND, '8')])).toMatchObject({ ticketed: '8', without: 1 })
    const two = [yards(FIRST, '8'), yards(FIRST, '9')]
    expect(sums(two)).toMatchObject({ ticketed: '0', without: 1 })
    expect(firstLoad(two).yards.map((y) => showNumber(y))).toEqual(['8', '9'])
    expect(firstLoad(two).oddities).toEqual(['several-answers'])
  })
  test('[yards] two spellings of one volume are one volume', () => {
    expect(firstLoad([yards(FIRST, '7 3/4'), yards(FIRST, '7.75')]).yards.length).toBe(1)
  })
})

test('[missing] what a load still lacks is named; what its ticket does not state is named apart from the ticket', () => {
  const all = ['arrived', 'water', 'slump', 'started', 'ended', 'left']
  expect(firstLoad([entry('load.left', { load: FIRST })]).missing).toEqual(['ticket', ...all.slice(0, -1)])
  expect(firstLoad([ticket(blankTicket)]).missing).toEqual(['batched', 'limit', 'yards', ...all])
  expect(firstLoad([ticket()]).missing).toEqual(all)
})

test('[L32] a photo is received once the server said so, whichever entry came first', () => {
  const taken = entry('photo.taken', {
    photo: PHOTO,
    bytes: 9,
    type: 'image/jpeg',
    shows: 'load',
    load: FIRST,
  })
  const arrived = entry('photo.received', { photo: PHOTO, bytes: 9 }, { at: '2026-04-21T12:00+00:00' })
  const receivedOf = (entries: readonly KnownEntry[]) =>
    view(entries).loads[0]!.photos.map((p) => p.value.received)
  expect(receivedOf([taken])).toEqual([false])
  expect(receivedOf([taken, arrived])).toEqual([true])
  expect(receivedOf([arrived, taken])).toEqual([true])
})
