import { describe, expect, test } from 'vitest'
import { readBest } from '../../../api/domain/phrase/read-best.ts'

/** Source: our choice. */
describe('[hear] one utterance heard several ways', () => {
  test('[hear] what all ways agree on stands', () => {
    const { facts, question } = readBest([
      'slump four and a half',
      'slum four and a half',
      'slump four and a half',
    ])
    expect(facts).toEqual([expect.objectContaining({ kind: 'reading.slump', value: 4.5 })])
    expect(question).toBeUndefined()
  })

  test('[hear] two values that rival each other are one question with both', () => {
    const { facts, question } = readBest(['slump five', 'slump nine'])
    expect(facts).toEqual([expect.objectContaining({ low_confidence: true })])
    expect(question?.readings.map(({ value }) => value).sort()).toEqual([5, 9])
  })

  test('[hear] a ticket that the job knows beats one that it does not', () => {
    const ways = [
      'ticket seven one three four nine',
      'ticket seven one three four oh',
      'ticket seven one three four oh',
    ]
    expect(readBest(ways, { tickets: ['71340'] }).facts[0]).toMatchObject({ value: '71340' })
  })

  test('[hear] a ticket one digit off the one that is due is asked', () => {
    const { facts, question } = readBest(['ticket seven one three four one'], { tickets: ['71340', '80221'] })
    expect(facts[0]).toMatchObject({ value: '71341', low_confidence: true })
    expect(question?.readings.map(({ value }) => value)).toEqual(['71340', '71341'])
  })

  test('[hear] what one way of many heard is no fact', () => {
    expect(readBest(['okay', 'okay', 'added ten gallons']).facts).toEqual([])
    expect(readBest([])).toEqual({ facts: [], unread: [] })
  })
})
