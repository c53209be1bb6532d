import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { readLocalTime, toLocalTime } from '../../api/domain/time.ts'
import { nextTimeAt, timeOnDay } from '../../web/state/clock-text.ts'
import { type Answers, answersOf } from '../../web/state/shape/answer.ts'
import { draftBody } from '../../web/state/shape/draft-body.ts'
import { carriedAnswers, formFields, formOf } from '../../web/state/shape/kind-form.ts'
import { type FieldShape, fieldsOfKind } from '../../web/state/shape/shape.ts'
import { anyBody, anyHash, anyUuid, anyWords } from '../kit/any-body.ts'

const ZONE = 'America/Chicago'
const LOAD = '01a21017-e579-7bec-85ed-4f76034b602b'
const around = { now: Date.parse('2026-04-21T10:00:00-05:00'), zone: ZONE, lang: 'en', ahead: false }

const isOfPeople = (kind: Kind): boolean =>
  KINDS[kind].thread === 'job' && KINDS[kind].maker === 'person' && kind !== 'entry.withdrawn'
const JOB_KINDS = (Object.keys(KINDS) as Kind[]).filter(isOfPeople)
/** Their bytes are no answer of a person: the camera's form is made by hand. */
const OF_THE_CAMERA: readonly Kind[] = ['photo.taken']
const FORM_KINDS = JOB_KINDS.filter((kind) => !OF_THE_CAMERA.includes(kind))

/** Times as a phone in this zone makes them. */
const anyTimeHere = fc
  .integer({ min: Date.parse('2026-01-01T06:00:00Z'), max: Date.parse('2027-01-01T06:00:00Z') })
  .map((at) => toLocalTime(at, ZONE))

describe('[forms] a general form for every kind', () => {
  test.each(FORM_KINDS)('[forms] %s, corrected and nothing touched, is the body that was logged', (kind) => {
    fc.assert(
      fc.property(anyBody(kind, { uuid: anyUuid, hash: anyHash, time: anyTimeHere }), (logged) => {
        const body = asPeopleWrite(logged) as Readonly<Record<string, unknown>>
        const answers = answersOf(fieldsOfKind(kind), body)
        const load = typeof body.load === 'string' ? body.load : undefined
        expect(draftBody(kind, answers, load, around)).toMatchObject({ body, marks: new Map() })
      }),
      { numRuns: 60 },
    )
  })

  test.each(FORM_KINDS)('[forms] %s, untouched, gives nothing that nobody said', (kind) => {
    const empty = draftBody(kind, {}, LOAD, around)
    const said = Object.keys(empty.body ?? {}).filter((name) => name !== 'load')
    expect(said).toEqual([])
    const needed = fieldsOfKind(kind).filter(({ name, optional }) => name !== 'load' && !optional)
    expect(empty.body === undefined).toBe(needed.length > 0)
  })

  test.each(FORM_KINDS)(
    '[forms] %s asks for each of its members once, what is needed before "more"',
    (kind) => {
      const { first, more } = formFields(kind)
      const all = fieldsOfKind(kind).map(({ name }) => name)
      const { fresh = [], first: named = [], carried = [] } = formOf(kind)
      const asked = [...first, ...more].map(({ name }) => name)
      expect(asked.sort()).toEqual(all.filter((name) => name !== 'load' && !fresh.includes(name)).sort())
      expect(more.filter(({ optional }) => !optional)).toEqual([])
      // What this file's table names must be there.
      expect([...named, ...carried].filter((name) => !all.includes(name))).toEqual([])
    },
  )

  test('[forms] a photo’s place is asked like any other, and its bytes of nobody', () => {
    const unasked = fieldsOfKind('photo.taken').filter(({ shape }) => shape.is === 'unasked')
    expect(unasked.map(({ name }) => name)).toEqual(['photo', 'bytes'])
  })

  test('[forms] whatever the camera’s form leaves out is not asked twice: all other kinds have this form', () => {
    expect(JOB_KINDS.length - FORM_KINDS.length).toBe(1)
  })
})

/** As a person writes: words begin and end with no blank, and a group of which nothing is said is not there. */
const asPeopleWrite = (value: unknown): unknown => {
  if (typeof value === 'string') return value.trim() || '.'
  if (Array.isArray(value)) return value.map(asPeopleWrite)
  if (typeof value !== 'object' || value === null) return value
  const members = Object.entries(value).map(([name, one]) => [name, asPeopleWrite(one)] as const)
  return Object.fromEntries(members.filter(([, one]) => JSON.stringify(one) !== '{}'))
}

const field = (kind: Kind, name: string): FieldShape => fieldsOfKind(kind).find((one) => one.name === name)!

describe('[forms] what is typed', () => {
  const air = (of: Answers): Answers => of
  test('[forms] a number is written as entries hold it, with the unit that was touched', () => {
    const answers = air({
      air: { is: 'tagged', tag: 'given', of: { is: 'quantity', text: '5,4', unit: 'pct' } },
    })
    expect(draftBody('air.measured', answers, LOAD, around).body).toEqual({
      load: LOAD,
      air: { is: 'given', text: '5.4', unit: 'pct' },
    })
  })

  test('[forms] not taken is an answer, and an empty field is not', () => {
    const notTaken = air({ air: { is: 'tagged', tag: 'not-taken', of: undefined } })
    expect(draftBody('air.measured', notTaken, LOAD, around).body).toEqual({
      load: LOAD,
      air: { is: 'not-taken' },
    })
    expect(draftBody('air.measured', {}, LOAD, around).marks.get('air')).toBe('open')
    const emptied = air({
      air: { is: 'tagged', tag: 'given', of: { is: 'quantity', text: ' ', unit: 'pct' } },
    })
    expect(draftBody('air.measured', emptied, LOAD, around).marks.get('air')).toBe('open')
  })

  test('[forms] of an optional group half an answer is asked for, and none at all is not recorded', () => {
    const half: Answers = {
      yards: { is: 'tagged', tag: 'given', of: { is: 'quantity', text: '1/2', unit: 'yd3' } },
      how: { is: 'picked', value: 'by-eye' },
    }
    expect(draftBody('concrete.left', half, LOAD, around).body).toEqual({
      load: LOAD,
      yards: { is: 'given', text: '1/2', unit: 'yd3' },
      how: 'by-eye',
    })
    const water: Answers = {
      amount: { is: 'tagged', tag: 'none', of: undefined },
      inDrum: { is: 'fields', of: { from: { is: 'quantity', text: '4', unit: 'yd3' } } },
    }
    expect([...draftBody('water.added', water, LOAD, around).marks.keys()].sort()).toEqual([
      'inDrum/how',
      'inDrum/yards',
    ])
  })

  test('[forms] below zero is read where the field can be, and says how to write it where it can’t', () => {
    const of = (text: string): Answers => ({
      of: { is: 'picked', value: 'air' },
      temperature: { is: 'tagged', tag: 'given', of: { is: 'quantity', text, unit: 'degF' } },
    })
    expect(draftBody('temperature.measured', of('−4'), undefined, around).body).toMatchObject({
      temperature: { text: '-4' },
    })
    expect(draftBody('temperature.measured', of('cold'), undefined, around).marks.get('temperature')).toBe(
      'unreadable',
    )
  })

  test('[forms] a value far from the usual is pointed at in any unit, and never refused', () => {
    const depth = (text: string, unit: 'in' | 'mm'): Answers => ({ depth: { is: 'quantity', text, unit } })
    for (const [text, unit, unusual] of [
      ['4', 'in', false],
      ['40', 'in', true],
      ['100', 'mm', false],
      ['10', 'mm', true],
    ] as const) {
      const read = draftBody('depth.measured', depth(text, unit), undefined, around)
      expect(read.unusual.has('depth')).toBe(unusual)
      expect(read.body).toBeDefined()
    }
  })

  test('[forms] a range needs one end at least, and says which field to fill in', () => {
    const asked: Answers = { air: { is: 'tagged', tag: 'given', of: { is: 'fields', of: {} } } }
    expect([...draftBody('mix.ordered', asked, undefined, around).marks]).toEqual([['air/target', 'open']])
  })

  test('[forms] words that are too long are marked and not cut', () => {
    const said: Answers = {
      from: { is: 'picked', value: 'us' },
      said: { is: 'text', text: 'x'.repeat(1001) },
    }
    expect(draftBody('dispatch.called', said, undefined, around).marks.get('said')).toBe('too-long')
  })

  test('[forms] for the next one who tests and with what stays; the value, its times and its place do not', () => {
    const taking: Answers = {
      taker: { is: 'called', text: 'Purvis' },
      instrument: { is: 'text', text: 'meter 2' },
      sampledAt: { is: 'time', text: '0943', half: undefined, days: 0 },
      point: { is: 'picked', value: 'first-portion' },
    }
    const before: Answers = {
      air: { is: 'tagged', tag: 'not-taken', of: undefined },
      taking: { is: 'fields', of: taking },
    }
    expect(carriedAnswers('air.measured', before)).toEqual({
      taking: { is: 'fields', of: { taker: taking.taker, instrument: taking.instrument } },
    })
  })

  test('[forms] the first unit is the trade’s own', () => {
    expect(field('depth.measured', 'depth').shape).toMatchObject({ is: 'quantity', units: ['in', 'mm'] })
  })
})

describe('[forms] the day of a clock time', () => {
  test('[forms] what was promised for seven, in the evening, is tomorrow’s', () => {
    const evening = readLocalTime('2026-04-20T19:30-05:00')!
    expect(nextTimeAt('07:00', evening, ZONE)).toBe('2026-04-21T07:00-05:00')
    // Promised for a moment ago still means today.
    expect(nextTimeAt('19:00', evening, ZONE)).toBe('2026-04-20T19:00-05:00')
  })

  /** Source: tz database, America/Chicago 2026: clocks forward 8 March, back 1 November. */
  test.each([
    ['2026-03-07T07:00-06:00', 1, '2026-03-08T07:00-05:00'],
    ['2026-10-31T00:30-05:00', 1, '2026-11-01T00:30-05:00'],
    ['2026-10-31T23:30-05:00', 1, '2026-11-01T23:30-06:00'],
    ['2026-11-02T00:10-06:00', -1, '2026-11-01T00:10-05:00'],
    ['2028-02-28T08:00-06:00', 1, '2028-02-29T08:00-06:00'],
  ])('[forms] %s moved by %i day keeps its clock: %s', (from, days, to) => {
    expect(timeOnDay(from.slice(11, 16), from, days, ZONE)).toBe(to)
  })
})

test('[forms] any words at all come through as they were written, but for blanks at the ends and control characters', () => {
  fc.assert(
    fc.property(anyWords(80), (text) => {
      const where: Answers = {
        depth: { is: 'quantity', text: '4', unit: 'in' },
        where: { is: 'text', text },
      }
      const read = draftBody('depth.measured', where, undefined, around)
      const tidy = text.trim()
      expect(read.body).toEqual({
        depth: { is: 'given', text: '4', unit: 'in' },
        ...(tidy === '' ? {} : { where: tidy }),
      })
    }),
  )
})
