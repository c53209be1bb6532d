import { expect, test } from 'vitest'
import { dischargeFinding } from '../../../api/domain/trade/discharge.ts'
import { CHOICES, editionsFrom } from '../../../api/domain/trade/editions.ts'
import { evaporationRate } from '../../../api/domain/trade/evaporation.ts'
import { hotFinding } from '../../../api/domain/trade/hot.ts'
import { SOURCES, type SourceId, showSource } from '../../../api/domain/trade/sources.ts'
import { m, shown, told } from './values.ts'

test('[trade] what nobody chose is the usual, and each choice has its usual among its own', () => {
  const all = editionsFrom({})
  for (const [name, { of, usual }] of Object.entries(CHOICES)) {
    expect(of, name).toContain(usual)
    expect(new Set(of).size, name).toBe(of.length)
    expect(all[name as keyof typeof CHOICES]).toBe(usual)
  }
  expect(editionsFrom({ hot: 'older' })).toEqual({ ...all, hot: 'older' })
})

test('[trade] another edition changes the limit, and the finding names the edition and its value', () => {
  const of = (editions: ReturnType<typeof editionsFrom>) => {
    const hot = told(hotFinding({ concrete: m('92', 'degF'), rule: editions.hot }))
    const time = told(
      dischargeFinding({ rule: editions.discharge, event: 'discharge-ended', elapsed: m('95', 'min') }),
    )
    return [hot.verdict, hot.limit?.source, shown(hot.limit?.most), time.verdict, time.minutes.limit?.source]
  }
  expect(of(editionsFrom({}))).toEqual(['inside', '301-20', '95', 'limit-not-stated', undefined])
  expect(of(editionsFrom({ hot: 'older', discharge: 'C94-98' }))).toEqual([
    'outside',
    'hot-older',
    '90',
    'outside',
    'c94-98',
  ])
})

test('[trade] one day lies on both sides of a threshold by the form that is chosen, so the result names its form', () => {
  const day = {
    concrete: m('66', 'degF'),
    air: m('60', 'degF'),
    humidity: m('30', 'pct'),
    wind: m('16', 'mph'),
  }
  const rates = (['uno-us', 'uno-si-rounded'] as const).map((form) => told(evaporationRate({ ...day, form })))
  expect(rates.map(({ form, source }) => [form, source])).toEqual([
    ['uno-us', 'uno-us'],
    ['uno-si-rounded', 'uno-si'],
  ])
  expect(rates[0]!.rate.estimate).toBeGreaterThan(rates[1]!.rate.estimate)
})

test('[trade] every source says what it is and how it was read; one from memory says so where it is printed', () => {
  for (const [id, { title, how }] of Object.entries(SOURCES)) {
    expect(title, id).not.toBe('')
    expect(showSource(id as SourceId).includes('from memory: check the text'), id).toBe(how === 'memory')
  }
})
