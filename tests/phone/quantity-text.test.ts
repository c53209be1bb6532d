import { describe, expect, test } from 'vitest'
import { EMPTY_TICKET, readTicket } from '../../web/state/draft.ts'
import { readOtherwise, readQuantity } from '../../web/state/quantity-text.ts'

describe('a quantity as it is typed', () => {
  test.each([
    ['8', '8'],
    ['8.5', '8.5'],
    [' 18  1/2 ', '18 1/2'],
    ['3/4', '3/4'],
  ])('%s is kept as %s, and nothing is echoed', (text, read) => {
    expect(readQuantity(text)).toBe(read)
    expect(readOtherwise(text)).toBeUndefined()
  })

  test.each([
    ['8,5', '8.5'],
    ['18,25', '18.25'],
    ['0,125', '0.125'],
    ['18½', '18 1/2'],
    ['18 ½', '18 1/2'],
    ['4¼', '4 1/4'],
    ['4-¾', '4 3/4'],
    ['½', '1/2'],
    ['4-1/4', '4 1/4'],
  ])('%s is read as %s, and that is echoed', (text, read) => {
    expect(readQuantity(text)).toBe(read)
    expect(readOtherwise(text)).toBe(read)
  })

  test.each([
    '',
    '8,',
    ',5',
    '8,5,5',
    '1,250.5',
    '3,620',
    '4,500',
    '12,000',
    '8,125',
    '8,5000',
    '8.5.1',
    '4--1/4',
    '4-1/0',
    '8-9',
    '-8',
    '½½',
    '8½ yd',
  ])('%s can’t be read', (text) => {
    expect(readQuantity(text)).toBeUndefined()
    expect(readOtherwise(text)).toBeUndefined()
  })

  test('a ticket’s yards go into the entry as read', () => {
    const unstated = { text: '', notStated: true }
    const ticket = {
      ...EMPTY_TICKET,
      number: unstated,
      truck: unstated,
      batched: { ...unstated, half: undefined },
      limit: { ...unstated, to: undefined },
      yards: { text: '8,5', notStated: false },
    }
    expect(readTicket(ticket, 'a load', { near: 0, zone: 'America/Chicago' })).toMatchObject({
      ticket: { yards: { is: 'given', text: '8.5', unit: 'yd3' } },
    })
  })
})
