import { describe, expect, test } from 'vitest'
import { jobFigures } from '../../api/domain/job/figures.ts'
import { emptyJob, emptyLoad } from '../../api/domain/job/fold.ts'
import type { JobView, LoadView, Said, Ticket, WaterAddition } from '../../api/domain/job/view.ts'
import { readLocalTime } from '../../api/domain/time.ts'
import { en } from '../../api/domain/words/en.ts'
import { enEntries } from '../../api/domain/words/en-entries.ts'
import { fill } from '../../api/domain/words/fill.ts'
import { fractionText, sumText, tenthsText } from '../../web/parts/pads/pad-text.ts'
import type { Words } from '../../web/state/language.ts'
import { blanksOf } from '../../web/state/pour/blanks.ts'
import { nextPromised } from '../../web/state/pour/expected.ts'
import { askBatched, askStamp } from '../../web/state/pour/odd-time.ts'
import { readOut } from '../../web/state/pour/read-out.ts'
import { loadInHand, nextTaps, stageOf } from '../../web/state/pour/stage.ts'
import { noneBefore, waterAsk } from '../../web/state/pour/water-ask.ts'

/** Times are load 2's of the demonstration. Source of what comes when: JOB A2. */
const at = (clock: string): string => `2026-04-21T${clock}-05:00`
const said = <T>(value: T, time: string, hash = 'a'): Said<T> => ({
  hash: hash.repeat(64),
  value,
  at: at(time),
  late: false,
  ahead: false,
})
const moment = (clock: string) => [said(at(clock), clock)]
const water = (
  amount: WaterAddition['amount'],
  clock: string,
  stage?: WaterAddition['stage'],
  hash = 'b',
): Said<WaterAddition> => said({ amount, ...(stage ? { stage } : {}) }, clock, hash)
const NONE = { is: 'none' } as const
const TWELVE = { is: 'given', text: '12', unit: 'gal' } as const

const load = (part: Partial<LoadView>): LoadView => ({
  id: 'load',
  ordinal: 1,
  joined: [],
  ...emptyLoad(),
  ...part,
})
const jobOf = (loads: readonly LoadView[], part: Partial<JobView> = {}): JobView => ({
  job: 'job',
  ...emptyJob(),
  ...part,
  loads: [...loads],
  history: [],
  unread: 0,
})
const asks = (part: Partial<LoadView>, job: Partial<JobView> = {}) => {
  const one = load(part)
  return waterAsk(one, jobFigures(jobOf([one], job)).loads[0])
}
const t: Words = Object.assign(
  (key: keyof typeof en, parts: Readonly<Record<string, string | number>> = {}) => fill(en[key], parts),
  { entry: () => enEntries },
)
const HERE = { arrived: moment('09:38') }
const STARTED = { ...HERE, started: moment('09:45') }
const PAUSED = { ...STARTED, paused: moment('09:58') }
const ENDED = { ...STARTED, ended: moment('10:19') }
const GONE = { ...ENDED, left: moment('10:25') }

const NOT_STATED = { is: 'not-stated' } as const
/** A ticket that prints nothing that is asked of it. */
const UNSTATED: Ticket = {
  number: NOT_STATED,
  truck: NOT_STATED,
  yards: NOT_STATED,
  batchedAt: NOT_STATED,
  limit: NOT_STATED,
}

describe('the next tap', () => {
  test.each([
    [{}, 'expected', 'load.arrived'],
    [HERE, 'here', 'discharge.started'],
    [STARTED, 'discharging', 'discharge.ended'],
    [PAUSED, 'paused', 'discharge.resumed'],
    [{ ...PAUSED, resumed: moment('10:03') }, 'discharging', 'discharge.ended'],
    [ENDED, 'emptied', 'load.left'],
    [GONE, 'gone', undefined],
  ] as const)('[dock] after %j the truck is %s', (part, stage, next) => {
    expect(stageOf(load(part))).toBe(stage)
    expect(nextTaps(load(part))?.next).toBe(next)
  })

  test('[dock] the load at the chute is in hand before the one that waits, and a touched tag before both', () => {
    const [first, second] = [load({ ...STARTED, id: 'one' }), load({ ...HERE, id: 'two' })]
    expect(loadInHand([second, first], undefined)?.id).toBe('one')
    expect(loadInHand([second, first], 'two')?.id).toBe('two')
    expect(loadInHand([load(GONE)], undefined)).toBeUndefined()
  })

  test('[dock] a promise is never made up: a second truck has one only where the spacing was said', () => {
    const promised = [said({ at: at('07:30') }, '06:00')]
    const spaced = [
      said({ at: at('07:30'), spacing: { is: 'given', text: '60', unit: 'min' } as const }, '06:00'),
    ]
    const next = (job: JobView, now = '07:00') =>
      nextPromised(job, jobFigures(job), 'America/Chicago', readLocalTime(at(now))!)
    expect(next(jobOf([], { promised }))).toBe(at('07:30'))
    expect(next(jobOf([load(GONE)], { promised }))).toBeUndefined()
    expect(next(jobOf([load(GONE)], { promised: spaced }))).toMatch(/^2026-04-21T08:30/)
    expect(next(jobOf([]))).toBeUndefined()
    // Hours after its time nobody waits for it, and once the tickets hold what was ordered nobody was promised more.
    expect(next(jobOf([], { promised }), '11:30')).toBe(at('07:30'))
    expect(next(jobOf([], { promised }), '11:31')).toBeUndefined()
    const eight = { is: 'given', text: '8', unit: 'yd3' } as const
    const full = load({ ...GONE, ticket: [said({ ...UNSTATED, yards: eight }, '07:33')] })
    expect(next(jobOf([full], { promised: spaced, ordered: [said(eight, '06:00')] }))).toBeUndefined()
  })
})

describe('water, asked when it is due', () => {
  test('[water] not before the truck stands, and not after it left', () => {
    expect(asks({})).toBeUndefined()
    expect(asks(GONE)).toBeUndefined()
  })
  test('[water] once before discharge; answered, it is not asked again', () => {
    expect(asks(HERE)).toEqual({ stage: 'before-discharge', why: 'first' })
    expect(asks({ ...HERE, water: [water(NONE, '09:40', 'before-discharge')] })).toBeUndefined()
    expect(asks({ ...STARTED, water: [water(NONE, '09:40', 'before-discharge')] })).toBeUndefined()
  })
  test('[water] asked for the first time after discharge began, it asks about all so far', () => {
    expect(asks(STARTED)).toEqual({ stage: undefined, why: 'first' })
  })
  test('[water] again once the chute stops, and at the end where nobody spoke of it', () => {
    const before = [water(NONE, '09:40', 'before-discharge')]
    expect(asks({ ...PAUSED, water: before })).toEqual({ stage: 'after-discharge-began', why: 'paused' })
    expect(asks({ ...ENDED, water: before })).toEqual({ stage: 'after-discharge-began', why: 'emptied' })
    const later = [...before, water(NONE, '09:59', 'after-discharge-began', 'c')]
    expect(asks({ ...PAUSED, water: later })).toBeUndefined()
    expect(asks({ ...ENDED, water: later })).toBeUndefined()
  })
  test('[water] again where a slump reads under what was asked, and not where it reads within', () => {
    const mix = [
      said(
        {
          slump: {
            is: 'target',
            target: { is: 'given', text: '4', unit: 'in' },
            tolerance: { is: 'given', text: '1', unit: 'in' },
          },
        },
        '06:00',
        'd',
      ),
    ] as unknown as JobView['mix']
    const slump = (text: string) => [
      said({ slump: { is: 'given', text, unit: 'in' } as const, how: 'cone' as const }, '09:41', 'e'),
    ]
    const before = [water(NONE, '09:40', 'before-discharge')]
    const low = asks({ ...HERE, slump: slump('2 1/2'), water: before }, { mix })
    expect(low).toEqual({ stage: 'before-discharge', why: 'low-slump' })
    expect(asks({ ...HERE, slump: slump('4'), water: before }, { mix })).toBeUndefined()
    // No order, no comparison.
    expect(asks({ ...HERE, slump: slump('2 1/2'), water: before })).toBeUndefined()
  })
  test('[water] gallons speak against a “none” of their own time alone', () => {
    const one = load({
      water: [
        water(NONE, '09:40', 'before-discharge', 'b'),
        water(NONE, '09:59', 'after-discharge-began', 'c'),
      ],
    })
    expect(noneBefore(one, 'before-discharge')).toEqual(['b'.repeat(64)])
    expect(noneBefore(one, 'after-discharge-began')).toEqual(['c'.repeat(64)])
    expect(noneBefore(load({ water: [water(TWELVE, '09:40')] }), 'before-discharge')).toEqual([])
  })
})

describe('numbers by knuckle', () => {
  test('[pads] nothing touched is no number, and half a reading is none', () => {
    expect([
      tenthsText(undefined, undefined),
      sumText(undefined, undefined),
      fractionText(undefined, undefined),
    ]).toEqual([undefined, undefined, undefined])
    expect(tenthsText('6', undefined)).toBeUndefined()
  })
  test.each([
    [tenthsText('6', '0'), '6.0'],
    [sumText('60', '3'), '63'],
    [sumText(undefined, '8'), '8'],
    [sumText('10', undefined), '10'],
    [fractionText('4', '1/2'), '4 1/2'],
    [fractionText(undefined, '1/2'), '1/2'],
    [fractionText('0', undefined), '0'],
  ])('[pads] %s is written %s', (text, written) => expect(text).toBe(written))
})

describe('what is odd is asked and not refused', () => {
  test('[odd] 7:50 for a truck that came at 7:33, and a load of four hours, are asked about; 7:05 is not', () => {
    const one = load({ arrived: moment('07:33') })
    expect(askBatched(t, at('07:50'), one)).toContain('07:50')
    expect(askBatched(t, at('03:20'), one)).toContain('253 min')
    expect(askBatched(t, at('07:05'), one)).toBeUndefined()
    expect(askBatched(t, at('07:50'), load({}))).toBeUndefined()
  })
  test('[odd] a start before the arrival or after the end is asked about', () => {
    expect(askStamp(t, 'discharge.started', at('09:30'), load(HERE))).toContain('09:30')
    expect(askStamp(t, 'discharge.started', at('10:30'), load(ENDED))).toContain('10:30')
    expect(askStamp(t, 'discharge.started', at('09:45'), load(ENDED))).toBeUndefined()
    expect(askStamp(t, 'discharge.paused', at('09:00'), load(ENDED))).toBeUndefined()
  })
})

describe('before he signs, and the quiet hour', () => {
  const ticket: Ticket = {
    number: { is: 'given', text: '71352' },
    truck: { is: 'given', text: '106' },
    yards: { is: 'given', text: '8', unit: 'yd3' },
    batchedAt: { is: 'given', at: at('08:21') },
    limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
    mix: { is: 'given', text: 'QB 45a' },
    allowance: { is: 'given', text: '16', unit: 'gal' },
  }
  const read = (part: Partial<LoadView>, job: Partial<JobView> = {}) => {
    const one = load({ ticket: [said(ticket, '09:40', 'f')], ...part })
    const whole = jobOf([one], job)
    const names = { load: () => undefined, part: () => undefined, person: () => undefined }
    return readOut(t, {
      load: one,
      figures: jobFigures(whole).loads[0]!,
      job: whole,
      now: at('10:22'),
      names,
    })
  }
  test('[read-out] load 2: 118 minutes and 20 gallons do not agree with its ticket, and both say by how much', () => {
    const { against, facts, missing } = read({
      ...ENDED,
      water: [
        water(TWELVE, '09:40', 'before-discharge'),
        water({ is: 'given', text: '8', unit: 'gal' }, '10:00', 'after-discharge-began', 'c'),
      ],
    })
    expect(against.join('\n')).toContain('outside, at 118 min')
    expect(against.join('\n')).toContain('outside, 4 gal over')
    expect(facts.find(({ label }) => label === 'Water')?.values[0]).toBe('20 gal in all')
    expect(missing).toEqual(['Slump'])
  })
  test('[read-out] the mix is compared letter by letter, but for blanks and capitals', () => {
    const order = (code: string) => ({ mix: [said({ code }, '06:00', 'd')] as unknown as JobView['mix'] })
    const mixes = (code: string) => read(HERE, order(code)).against.filter((text) => text.startsWith('Mix'))
    expect(mixes('QB-45A')).toEqual([])
    expect(mixes('QB-40')).toEqual(['Mix: ticket says QB 45a, order says QB-40'])
  })
  test('[blanks] a truck at the forms is left alone; of one that left, the quickest comes first', () => {
    const blanks = (one: LoadView) => {
      const job = jobOf([one])
      return blanksOf(job, jobFigures(job)).filter((blank) => blank.load)
    }
    expect(blanks(load(STARTED))).toEqual([])
    const open = blanks(load(GONE))
    expect(open[0]).toMatchObject({ of: 'water', over: { is: 'quick', ask: 'water' } })
    expect(open.at(-1)).toMatchObject({ of: 'ticket' })
    expect(open.map(({ seconds }) => seconds)).toEqual(
      [...open.map(({ seconds }) => seconds)].sort((a, b) => a - b),
    )
    expect(open.some(({ of }) => of === 'waiver')).toBe(false)
  })
})
