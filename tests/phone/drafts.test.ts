import { describe, expect, test } from 'vitest'
import { lastTimeAt, readClock } from '../../web/state/clock-text.ts'
import { EMPTY_TICKET, readTicket, readWhen, type TicketDraft, ticketDraftOf } from '../../web/state/draft.ts'
import { clockMark, textMark, ticketMark, whenMark } from '../../web/state/field-mark.ts'
import { readSlumpText, writeSlumpText } from '../../web/state/slump-text.ts'

const ZONE = 'America/Chicago'
const LOAD = '01a21017-e579-7bec-85ed-4f76034b602b'
const at = (text: string): number => Date.parse(text)

describe('a clock time typed with gloves on', () => {
  test.each([
    ['0705', undefined, '07:05'],
    ['7:05', 'am', '07:05'],
    ['705', 'pm', '19:05'],
    ['1320', undefined, '13:20'],
    ['12:10', 'am', '00:10'],
    ['12:10', 'pm', '12:10'],
    ['0010', undefined, '00:10'],
  ] as const)('%s %s is %s', (text, half, clock) => {
    expect(readClock(text, half)).toEqual({ is: 'clock', clock })
  })

  test('of 705 alone nobody guesses the half of the day: it is asked', () => {
    expect(readClock('705', undefined)).toEqual({ is: 'asks-half' })
    expect(readClock('1130', undefined)).toEqual({ is: 'asks-half' })
  })

  test.each(['', '7', '2460', '7:5', '765', '24:00', 'noon', '07050'])('%s is no clock time', (text) => {
    expect(readClock(text, 'am')).toEqual({ is: 'none' })
  })
})

describe('the day of a clock time', () => {
  test('batched at 23:50 and arrived at 00:20 is the evening before', () => {
    expect(lastTimeAt('23:50', at('2026-04-22T00:20:00-05:00'), ZONE)).toBe('2026-04-21T23:50-05:00')
  })

  // 8 March 2026 has 23 hours in Chicago and 1 November 25. Source: IANA tz, northamerica, rule US.
  test.each([
    ['23:50', '2026-03-08T00:20:00-06:00', '2026-03-07T23:50-06:00'],
    ['23:50', '2026-03-09T00:20:00-05:00', '2026-03-08T23:50-05:00'],
    ['01:50', '2026-03-08T03:10:00-05:00', '2026-03-08T01:50-06:00'],
    ['23:50', '2026-11-01T00:20:00-05:00', '2026-10-31T23:50-05:00'],
    ['23:50', '2026-11-02T00:20:00-06:00', '2026-11-01T23:50-06:00'],
    ['01:50', '2026-11-01T01:10:00-06:00', '2026-11-01T01:50-05:00'],
    ['01:05', '2026-11-01T01:40:00-06:00', '2026-11-01T01:05-06:00'],
    ['23:50', '2028-03-01T00:20:00-06:00', '2028-02-29T23:50-06:00'],
  ])('%s logged at %s is %s, over nights of 23 and 25 hours and a leap day', (clock, near, time) => {
    expect(lastTimeAt(clock, at(near), ZONE)).toBe(time)
  })

  test('a minute past midnight by a ticket’s fast clock, typed just before it, is tomorrow’s', () => {
    expect(lastTimeAt('00:03', at('2026-04-21T23:58:00-05:00'), ZONE)).toBe('2026-04-22T00:03-05:00')
  })

  test('logged at nine in the evening, 07:05 is that morning', () => {
    expect(lastTimeAt('07:05', at('2026-04-21T21:00:00-05:00'), ZONE)).toBe('2026-04-21T07:05-05:00')
  })

  test('a ticket whose clock runs a little ahead stays on its day, to be flagged and not moved', () => {
    expect(lastTimeAt('09:50', at('2026-04-21T09:38:00-05:00'), ZONE)).toBe('2026-04-21T09:50-05:00')
  })
})

describe('a ticket’s form', () => {
  const filled: TicketDraft = {
    number: { text: ' 71340 ', notStated: false },
    truck: { text: '218', notStated: false },
    yards: { text: '9  3/4', notStated: false },
    batched: { text: '0705', notStated: false, half: undefined },
    limit: { text: '90', notStated: false, to: 'discharge-ended' },
  }
  const around = { near: at('2026-04-21T07:33:00-05:00'), zone: ZONE }

  test('untouched, it is five open answers: no value stands there beforehand', () => {
    expect(readTicket(EMPTY_TICKET, LOAD, around)).toEqual({
      open: ['number', 'truck', 'yards', 'batched', 'limit'],
    })
  })

  test('what was typed is what is logged, tidied of blanks alone', () => {
    expect(readTicket(filled, LOAD, around)).toEqual({
      ticket: {
        load: LOAD,
        number: { is: 'given', text: '71340' },
        truck: { is: 'given', text: '218' },
        yards: { is: 'given', text: '9 3/4', unit: 'yd3' },
        batchedAt: { is: 'given', at: '2026-04-21T07:05-05:00' },
        limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
      },
    })
  })

  test('a limit without the event that it runs to is open', () => {
    const draft = { ...filled, limit: { ...filled.limit, to: undefined } }
    expect(readTicket(draft, LOAD, around)).toEqual({ open: ['limit'] })
  })

  test('not on the ticket is an answer, and it is not the empty one', () => {
    const unstated = { text: '', notStated: true }
    const read = readTicket(
      { ...filled, limit: { ...unstated, to: undefined }, yards: unstated },
      LOAD,
      around,
    )
    expect(read).toMatchObject({ ticket: { limit: { is: 'not-stated' }, yards: { is: 'not-stated' } } })
  })

  test('a logged ticket goes back into its form and comes out the same', () => {
    for (const batched of ['0705', '1020', '1320']) {
      const first = readTicket(
        { ...filled, batched: { text: batched, notStated: false, half: 'am' } },
        LOAD,
        { ...around, near: at('2026-04-21T14:00:00-05:00') },
      )
      if (!('ticket' in first)) throw new Error('open')
      const again = readTicket(ticketDraftOf(first.ticket), LOAD, {
        ...around,
        near: at('2026-04-21T14:00:00-05:00'),
      })
      expect(again).toEqual(first)
    }
  })
})

describe('a field without an answer is open or can’t be read, and says which', () => {
  const typed = (text: string) => ({ text, notStated: false })
  const fields = ['number', 'truck', 'yards', 'batched', 'limit'] as const

  test('nothing typed, or blanks alone, is open', () => {
    for (const field of fields) expect(ticketMark(EMPTY_TICKET, field)).toBe('open')
    expect(textMark('  ')).toBe('open')
    expect(whenMark({ is: 'at', text: '', half: undefined })).toBe('open')
  })

  test('typed and not read is unreadable, not open', () => {
    const draft: TicketDraft = {
      number: typed('A 71'),
      truck: typed('#218'),
      yards: typed('eight'),
      batched: { ...typed('24:61'), half: undefined },
      limit: { ...typed('90 min'), to: 'discharge-ended' },
    }
    for (const field of fields) expect(ticketMark(draft, field)).toBe('unreadable')
    expect(whenMark({ is: 'at', text: '24:61', half: 'am' })).toBe('unreadable')
  })

  test('what reads well and needs one more answer is open', () => {
    expect(clockMark('705', undefined)).toBe('open')
    expect(ticketMark({ ...EMPTY_TICKET, limit: { ...typed('90'), to: undefined } }, 'limit')).toBe('open')
  })
})

describe('when something happened', () => {
  const now = at('2026-04-21T10:00:00-05:00')

  test('now is the tap, by the site’s clock', () => {
    expect(readWhen({ is: 'now' }, now, ZONE)).toBe('2026-04-21T10:00:00.000-05:00')
  })

  test('a correction keeps the logged time, and another time lies on the day that was logged', () => {
    const kept = '2026-04-20T09:40:12.000-05:00'
    expect(readWhen({ is: 'kept' }, now, ZONE, kept)).toBe(kept)
    for (const text of ['0938', '1500'])
      expect(readWhen({ is: 'at', text, half: undefined }, now, ZONE, kept)).toBe(
        `2026-04-20T${text.slice(0, 2)}:${text.slice(2)}-05:00`,
      )
  })

  test('half a time is no time', () => {
    expect(readWhen({ is: 'at', text: '938', half: undefined }, now, ZONE)).toBeUndefined()
  })
})

describe('a slump picked with a knuckle', () => {
  test.each([
    [{ whole: 4, quarter: '1/4' }, '4 1/4'],
    [{ whole: 4 }, '4'],
    [{ whole: 0, quarter: '3/4' }, '3/4'],
    [{ whole: 0 }, '0'],
  ] as const)('%o is written %s and read back', (pick, text) => {
    expect(writeSlumpText(pick)).toBe(text)
    expect(writeSlumpText(readSlumpText(text))).toBe(text)
  })

  test('before a whole number there is no slump, and a text of another hand picks nothing', () => {
    expect(writeSlumpText({ quarter: '1/2' })).toBeUndefined()
    expect(readSlumpText('4.25')).toEqual({})
  })
})
