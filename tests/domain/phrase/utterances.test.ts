import { describe, expect, test } from 'vitest'
import { readPhrase } from '../../../api/domain/phrase/read-phrase.ts'
import { score, spoken } from './score.ts'

const read = (said: string) => readPhrase(said).facts

/**
 * Source of every list: our own sentences, invented; the conventions are those of the first list. Nobody real was recorded.
 * A fact is exact when kind, value or range, unit, time, load, name, stage and not taken agree; a remark counts by being there.
 */
const LISTS = [
  { file: 'utterances.tsv', exact: 0.97, wrong: 0.01 },
  { file: 'utterances-demo-day.tsv', exact: 0.97, wrong: 0.01 },
  { file: 'utterances-other-habits.tsv', exact: 0.97, wrong: 0.01 },
  { file: 'utterances-further.tsv', exact: 0.97, wrong: 0.01 },
  { file: 'utterances-last.tsv', exact: 0.97, wrong: 0.01 },
  { file: 'utterances-fourth.tsv', exact: 0.97, wrong: 0.01 },
]

describe('[hear] sentences give their facts', () => {
  for (const { file, exact, wrong } of LISTS)
    test(`[hear] ${file}: at least ${exact * 100} % exact, at most ${wrong * 100} % wrong with confidence`, () => {
      const found = score(spoken(file), read)
      expect(found.exact / found.wanted, found.misses.join('\n')).toBeGreaterThanOrEqual(exact)
      expect(found.wrong / found.wanted, found.misses.join('\n')).toBeLessThanOrEqual(wrong)
    })

  test('[hear] talk that is none of the work gives nothing', () => {
    const idle = LISTS.flatMap(({ file }) => spoken(file)).filter(({ facts }) => facts.length === 0)
    expect(idle.length).toBeGreaterThan(60)
    expect(idle.filter(({ said }) => read(said).length > 0).map(({ said }) => said)).toEqual([])
  })
})

/** Cases of one rule each. Source: common practice, no source. */
describe('[hear] rules', () => {
  const only = (said: string) => {
    const facts = read(said)
    expect(facts, said).toHaveLength(1)
    return facts[0]!
  }

  test('[hear] a request, a permission or an order is a remark, never water added', () => {
    for (const said of [
      'Give me ten gallons.',
      'Go ahead and give it ten.',
      'Échale diez galones más.',
      'You can put in five more gallons.',
    ])
      expect(only(said)).toMatchObject({ kind: 'note', about: 'asked-for' })
  })

  test('[hear] left the plant is not batched', () => {
    expect(only('He left the plant at seven twenty.')).toMatchObject({ kind: 'note', about: 'left-plant' })
    expect(only('Salió de la planta a las siete y doce.').kind).toBe('note')
  })

  test('[hear] air is a content up to twelve, a temperature from twenty, and a question between', () => {
    expect(only('Air six.')).toMatchObject({ kind: 'reading.air', value: 6, unit: '%' })
    expect(only("Air's fifty-five out here.")).toMatchObject({ kind: 'reading.air_temperature', value: 55 })
    const { facts, question } = readPhrase("Air's fifteen.")
    expect(facts[0]).toMatchObject({ low_confidence: true })
    expect(question?.readings.map(({ kind }) => kind)).toEqual(['reading.air', 'reading.air_temperature'])
  })

  test('[hear] four five of a slump is asked: a range, or four and a half', () => {
    const { facts, question } = readPhrase('Slump four five.')
    expect(facts[0]).toMatchObject({ min: 4, max: 5, low_confidence: true })
    expect(question?.readings[1]).toMatchObject({ value: 4.5 })
  })

  test('[hear] none and not taken are two things', () => {
    expect(only('No water added.')).toMatchObject({ value: 0, unit: 'gal' })
    expect(only("Didn't run a slump on this one.")).toEqual({ kind: 'reading.slump', not_taken: true })
    expect(only('No cylinders on this load.')).toMatchObject({ value: 0, unit: 'count' })
  })

  test('[hear] by eye is not measured', () => {
    expect(only('Looks like a four.')).toMatchObject({ method: 'estimated', approx: true })
    expect(only('Cone says four.')).toMatchObject({ method: 'measured' })
  })

  test('[hear] a correction within a breath leaves the last value alone', () => {
    expect(only('Slump four, scratch that, make it five.')).toMatchObject({ value: 5 })
    expect(only('Truck two eighteen, no, two nineteen.')).toMatchObject({ value: '219' })
    expect(only('Batched seven oh five, sorry, seven fifteen.')).toMatchObject({ at: '07:15' })
    expect(read('Slump four, scratch that.')).toEqual([])
  })

  test('[hear] a correction of something said before names what it was', () => {
    expect(only('Change the last water from ten to twelve gallons.')).toMatchObject({
      value: 12,
      was: 10,
      corrects: true,
    })
  })

  test('[hear] the meter’s figure stays the value beside the corrected one', () => {
    expect(only('Air meter says six point four, minus point three correction.')).toMatchObject({
      value: 6.4,
      correction: -0.3,
      corrected: 6.1,
    })
  })

  test('[hear] an unmarked five-something of batching is asked; a spoken half of the day settles it', () => {
    expect(only('Batched at five forty.')).toMatchObject({ at: '17:40', low_confidence: true })
    expect(only('Batched at five forty in the morning.')).toMatchObject({ at: '05:40' })
  })

  test('[hear] a running total stands beside what was added', () => {
    expect(only('Another four gallons, that makes fourteen.')).toMatchObject({ value: 4, running_total: 14 })
  })

  test('[hear] numbers without a thing are said back, never guessed at', () => {
    expect(readPhrase('He drives a sixty-eight with a bench seat.')).toEqual({
      facts: [],
      unread: ['sixty-eight'],
    })
  })

  test('[hear] a question gives nothing, what was told before it in the same breath stays', () => {
    expect(read('Was that four or was it five?')).toEqual([])
    expect(only("Slump's five, y'all good with that?")).toMatchObject({ value: 5 })
  })

  test('[hear] a sentence with a word that leads nowhere is asked', () => {
    expect(only('Put five gallons in load two at')).toMatchObject({ value: 5, low_confidence: true })
    expect(only('Slump four and a')).toMatchObject({ low_confidence: true })
  })
})
