import { describe, expect, test } from 'vitest'
import type { Happening } from '../../../api/domain/entry/make.ts'
import { KINDS } from '../../../api/domain/entry/registry.ts'
import { jobFigures } from '../../../api/domain/job/figures.ts'
import type { JobFinding } from '../../../api/domain/job/findings/finding.ts'
import { jobFindings } from '../../../api/domain/job/findings/findings.ts'
import { foldJob } from '../../../api/domain/job/fold.ts'
import type { KnownEntry } from '../../../api/domain/job/standing.ts'
import { CHOICES } from '../../../api/domain/trade/editions.ts'
import type { Unit } from '../../../api/domain/units.ts'
import { at, DRIVE, entry, FIRST, JOB, SECOND, stamp, ticket, WALK } from './pour.ts'

const notStatedLimit = { limit: { is: 'not-stated' } } as const
const q = <U extends Unit>(text: string, unit: U) => ({ is: 'given', text, unit }) as const
const findingsOf = (entries: readonly KnownEntry[]): JobFinding[] => jobFindings(foldJob(JOB, entries))
const of = (entries: readonly KnownEntry[], name: JobFinding['of']): JobFinding[] =>
  findingsOf(entries).filter((one) => one.of === name)
type Editions = Happening<'editions.chosen'>['body']
const chosen = (body: Editions, more: { corrects?: readonly string[]; at?: string } = {}): KnownEntry =>
  entry('editions.chosen', body, { at: at('06:00'), ...more })

/** What a finding says, in one line. */
const told = ({ value, least, most, source, verdict, editions }: JobFinding): string =>
  [
    value ? `${value.text} ${value.unit}` : '-',
    `${least?.text ?? ''}..${most?.text ?? ''}`,
    source ?? '-',
    editions.map(({ edition }) => edition).join('+') || '-',
    verdict,
  ].join(' | ')

describe('[editions] what a job is judged by', () => {
  test('[editions] an entry may choose what the trade’s table offers, no more and no less', () => {
    const shape = KINDS['editions.chosen'].today._zod.def.shape
    const choices = Object.keys(shape) as (keyof typeof shape)[]
    for (const choice of choices) {
      const codes = Object.keys(shape[choice]._zod.def.innerType._zod.def.entries)
      expect(codes.sort(), choice).toEqual([...CHOICES[choice].of].sort())
    }
    // Those that no finding of a job asks: tables by exposure, the curve of saturation, the rule of the gallon.
    const rest = Object.keys(CHOICES).filter((choice) => !(choice in shape))
    expect(rest.sort()).toEqual(['addedWater', 'exposure', 'vapour'])
  })

  const load = [
    ticket(notStatedLimit),
    stamp('discharge.started', '08:30'),
    stamp('discharge.ended', '09:03'),
  ]
  /** 118 minutes. Source of the limits: ASTM C94-21 §6.1.10; C94-98 §10.7; ASCC position paper 32 (C94-13). */
  test.each([
    [undefined, '118 min | .. | - | C94-21 | limit-not-stated'],
    ['C94-21', '118 min | .. | - | C94-21 | limit-not-stated'],
    ['C94-13', '118 min | ..90 | c94-13 | C94-13 | outside'],
    ['C94-98', '118 min | ..90 | c94-98 | C94-98 | outside'],
  ] as const)(
    '[editions] an older 90 minutes holds only where somebody chose it: %s',
    (discharge, expected) => {
      const entries = [...load, ...(discharge ? [chosen({ discharge })] : [])]
      expect(of(entries, 'discharge-minutes').map(told)).toEqual([expected])
    },
  )

  test('[editions] a choice is named with the entry that made it; the usual one with none', () => {
    const choice = chosen({ discharge: 'C94-98' })
    const [named] = of([...load, choice], 'discharge-minutes')
    expect(named?.editions).toEqual([{ choice: 'discharge', edition: 'C94-98', chosenIn: [choice.hash] }])
    expect(named?.entries).toContain(choice.hash)
    expect(of(load, 'discharge-minutes')[0]?.editions[0]?.chosenIn).toEqual([])
  })

  test('[editions] a later entry adds a choice; two that answer one otherwise stand both, until one names both', () => {
    const first = chosen({ discharge: 'C94-98' })
    const other = chosen({ hot: 'older' }, { at: at('06:05') })
    const rival = chosen({ discharge: 'C94-13' }, { at: at('06:10') })
    expect(of([...load, first, other], 'discharge-minutes').map(told)).toHaveLength(1)
    expect(jobFigures(foldJob(JOB, [...load, first, other])).oddities).toEqual([])
    const both = [...load, first, rival]
    expect(of(both, 'discharge-minutes').map((one) => one.editions[0]?.edition)).toEqual(['C94-98', 'C94-13'])
    expect(jobFigures(foldJob(JOB, both)).oddities).toEqual(['several-answers'])
    const settled = chosen(
      { discharge: 'C94-21' },
      { at: at('06:20'), corrects: [first.hash, rival.hash].sort() },
    )
    expect(of([...both, settled], 'discharge-minutes').map(told)).toEqual([
      '118 min | .. | - | C94-21 | limit-not-stated',
    ])
  })

  test('[discharge] a stated limit goes before an older edition’s own', () => {
    const stated = ticket({ limit: { is: 'given', text: '75', unit: 'min', to: 'discharge-started' } })
    expect(
      of([stated, ...load.slice(1), chosen({ discharge: 'C94-98' })], 'discharge-minutes').map(told),
    ).toEqual(['85 min | ..75 | ticket | C94-98 | outside'])
  })

  test('[discharge] a limit without its times is not recorded, and says which', () => {
    expect(of([ticket(), stamp('discharge.started', '08:30')], 'discharge-minutes')).toMatchObject([
      { verdict: 'not-recorded', missing: ['discharge-end'], most: { text: '90', unit: 'min' } },
    ])
    expect(of([stamp('discharge.ended', '09:03')], 'discharge-minutes')).toMatchObject([
      { verdict: 'not-recorded', missing: ['ticket'] },
    ])
  })

  /** Source: ASTM C94-98 §10.7, 300 revolutions; the value was taken out in 2013. */
  test.each([
    [undefined, '310', ['310 one | .. | - | C94-21 | limit-not-stated']],
    ['C94-98', '310', ['310 one | ..300 | c94-98 | C94-98 | outside']],
    ['C94-98', '300', ['300 one | ..300 | c94-98 | C94-98 | inside']],
    ['C94-98', undefined, ['- | ..300 | c94-98 | C94-98 | not-recorded']],
    [undefined, undefined, []],
  ] as const)('[discharge] revolutions by %s, ticket %s', (discharge, count, expected) => {
    const entries = [
      ticket(count ? { ...notStatedLimit, revolutions: q(count, 'one') } : notStatedLimit),
      ...(discharge ? [chosen({ discharge })] : []),
    ]
    expect(of(entries, 'drum-revolutions').map(told)).toEqual(expected)
  })
})

describe('[fresh] slump and air', () => {
  type Mix = Happening<'mix.ordered'>['body']
  const ordered = (body: Mix) => entry('mix.ordered', body, { at: at('05:00') })
  const slump = (inches: string, how: 'cone' | 'by-eye' = 'cone') =>
    entry('slump.measured', { load: FIRST, slump: q(inches, 'in'), how })
  const air = (pct: string, correction?: string) =>
    entry('air.measured', {
      load: FIRST,
      air: q(pct, 'pct'),
      ...(correction ? { aggregateCorrection: q(correction, 'pct') } : {}),
    })
  const target = (text: string) => ordered({ slump: { is: 'target', target: q(text, 'in') } })
  const most = (text: string) => ordered({ slump: { is: 'most', most: q(text, 'in') } })

  /** Source: ASTM C94 slump tolerances from memory (±½, ±1, ±1½; +0/−1½, +0/−2½); 4 ± 1 through ACI 301 with ACI 117. */
  test.each([
    [target('4'), undefined, '5.25 in | 3..5 | aci-117 | c94 | outside'],
    [target('2'), undefined, '5.25 in | 1.5..2.5 | c94-slump | c94 | outside'],
    [target('6'), undefined, '5.25 in | 4.5..7.5 | c94-slump | c94 | inside'],
    [most('6'), undefined, '5.25 in | 3.5..6 | c94-slump | c94 | inside'],
    [target('4'), 'stated-only', '5.25 in | .. | - | stated-only | limit-not-stated'],
    [most('5'), 'stated-only', '5.25 in | ..5 | order | stated-only | outside'],
  ] as const)('[fresh] an order that names no tolerance: case %#', (order, tolerances, expected) => {
    const entries = [order, slump('5 1/4'), ...(tolerances ? [chosen({ tolerances })] : [])]
    expect(of(entries, 'slump').map(told)).toEqual([expected])
  })

  test('[fresh] an order’s own tolerance holds whatever was chosen, and no edition is named', () => {
    const order = ordered({ slump: { is: 'target', target: q('4', 'in'), tolerance: q('3/4', 'in') } })
    const rivals = [chosen({ tolerances: 'stated-only' }), chosen({ tolerances: 'c94' }, { at: at('06:01') })]
    expect(of([order, slump('4 3/4'), ...rivals], 'slump').map(told)).toEqual([
      '4.75 in | 3.25..4.75 | order | - | inside',
    ])
  })

  test('[fresh] by eye is not measured, and says so', () => {
    expect(of([target('4'), slump('2 1/2', 'by-eye')], 'slump')).toMatchObject([{ notes: ['by-eye'] }])
  })

  /** Source: ASTM C94 §8, ±1.5 points. */
  test.each([
    [{ target: q('6', 'pct') }, undefined, '7.6 pct | 4.5..7.5 | c94-air | c94 | outside'],
    [{ target: q('6', 'pct') }, '0.4', '7.2 pct | 4.5..7.5 | c94-air | c94 | inside'],
    [{ from: q('5', 'pct'), to: q('8', 'pct') }, undefined, '7.6 pct | 5..8 | order | - | inside'],
  ] as const)('[fresh] air of 7.6 %%: case %#', (asked, correction, expected) => {
    const entries = [ordered({ air: { is: 'given', ...asked } }), air('7.6', correction)]
    expect(of(entries, 'air').map(told)).toEqual([expected])
  })
})

const planned = (inches = '5') =>
  entry(
    'placement.planned',
    {
      placement: JOB,
      name: 'Drive and walk',
      parts: [
        {
          part: DRIVE,
          name: 'Drive',
          length: q('40', 'ft'),
          width: q('20', 'ft'),
          thickness: q(inches, 'in'),
        },
        { part: WALK, name: 'Walk', length: q('40', 'ft'), width: q('4', 'ft'), thickness: q('4', 'in') },
      ],
    },
    { at: at('05:00') },
  )
const started = stamp('discharge.started', '07:41')
const concrete = (text: string, clock = '07:51') =>
  entry(
    'temperature.measured',
    { of: 'concrete', load: FIRST, temperature: q(text, 'degF') },
    { at: at(clock) },
  )
const airAt = (time: string, text: string) =>
  entry('temperature.measured', { of: 'air', temperature: q(text, 'degF') }, { at: time })
const night = (day: number, text: string) => airAt(`2026-04-${day}T23:00-05:00`, text)

describe('[cold] weather and the temperature of the concrete', () => {
  /** Source: ACI 306R-10, as on ACI’s own page: below 40 °F while the concrete is protected; just 40 is not below. */
  test.each([
    [[night(21, '33')], '33 degF | 40.. | 306r-10 | 306R-10 | outside'],
    [[night(21, '41')], '41 degF | 40.. | 306r-10 | 306R-10 | not-recorded'],
    [[night(21, '41'), night(22, '40'), night(23, '44')], '40 degF | 40.. | 306r-10 | 306R-10 | inside'],
    // Before the first concrete, and after the days of protection.
    [[airAt('2026-04-21T05:20-05:00', '33')], '- | 40.. | 306r-10 | 306R-10 | not-recorded'],
    [[night(26, '20')], '- | 40.. | 306r-10 | 306R-10 | not-recorded'],
  ] as const)('[cold] the newer definition: case %#', (readings, expected) => {
    expect(of([started, ...readings], 'cold-weather').map(told)).toEqual([expected])
  })

  test('[cold] a second day of placing has nights of its own', () => {
    const second = entry('discharge.started', { load: SECOND }, { at: '2026-04-28T08:00-05:00' })
    const first = [night(21, '41'), night(22, '40'), night(23, '44')]
    const later = [night(28, '45'), night(29, '45'), night(30, '45')]
    expect(of([started, second, ...first], 'cold-weather')).toMatchObject([{ verdict: 'not-recorded' }])
    expect(of([started, second, ...first, ...later], 'cold-weather')).toMatchObject([{ verdict: 'inside' }])
    expect(of([started, second, ...first, night(29, '31')], 'cold-weather')).toMatchObject([
      { value: { text: '31' }, verdict: 'outside' },
    ])
  })

  /** Source: ACI 306R-88 as quoted in PCA ch. 14: more than three days in a row with a mean below 40 °F. */
  test.each([
    [[38, 38, 38, 38], '38 degF | 40.. | 306r-88 | 306R-88 | outside'],
    [[38, 38, 38, 42], '42 degF | 40.. | 306r-88 | 306R-88 | inside'],
    [[38, 38, 38], '- | 40.. | 306r-88 | 306R-88 | not-recorded'],
  ] as const)('[cold] the older definition: means of %j', (means, expected) => {
    const days = means.flatMap((mean, i) =>
      ['03', '09', '15', '21'].map((hour) => airAt(`2026-04-${18 + i}T${hour}:00-05:00`, String(mean))),
    )
    const entries = [started, ...days, chosen({ coldWeather: '306R-88' })]
    expect(of(entries, 'cold-weather').map(told)).toEqual([expected])
  })

  /** Source: ACI 306R-88 through Beall Figs 3-37, 3-38 (55 °F, 20 above it); C94 from memory; UFGS 03301A. */
  test.each([
    [undefined, '52 degF | 55..75 | 306r-88 | 306r-88 | outside'],
    ['c94', '52 degF | 55.. | c94-cold | c94 | outside'],
    ['ufgs-03301a', '52 degF | 55..75 | ufgs-03301a | ufgs-03301a | outside'],
  ] as const)('[cold] placing temperature by %s', (placing, expected) => {
    const entries = [
      planned(),
      started,
      concrete('52'),
      night(21, '33'),
      ...(placing ? [chosen({ placing })] : []),
    ]
    expect(of(entries, 'placing-temperature').map(told)).toEqual([expected])
  })

  test('[cold] a thicker section has another row', () => {
    const thick = [planned('14'), started, concrete('52'), night(21, '33')]
    const placed = entry('load.placed', { load: FIRST, places: [{ part: DRIVE }], how: 'by-eye' })
    // The walk of 4 in goes before it where nobody said where the load went.
    expect(of(thick, 'placing-temperature')).toMatchObject([{ least: { text: '55' }, notes: ['all-parts'] }])
    expect(of([...thick, placed], 'placing-temperature').map(told)).toEqual([
      '52 degF | 50..70 | 306r-88 | 306r-88 | inside',
    ])
  })

  test('[cold] whether it was cold is not guessed: the limit stands beside, and nothing is compared', () => {
    const base = [planned(), started, concrete('85')]
    expect(of([...base, night(21, '60')], 'placing-temperature')).toMatchObject([
      {
        verdict: 'not-recorded',
        notes: ['all-parts', 'cold-weather-not-known'],
        missing: ['night-temperatures'],
      },
    ])
    const mild = [night(21, '60'), night(22, '61'), night(23, '62')]
    expect(of([...base, ...mild], 'placing-temperature')).toEqual([])
  })

  /** Source: ACI 301-20 and 305.1-14 (95 °F); older specifications (90 °F). */
  test.each([
    [undefined, '92 degF | ..95 | 301-20 | 301-20 | inside'],
    ['older', '92 degF | ..90 | hot-older | older | outside'],
  ] as const)('[hot] %s', (hot, expected) => {
    const entries = [started, concrete('92'), ...(hot ? [chosen({ hot })] : [])]
    expect(of(entries, 'hot-temperature').map(told)).toEqual([expected])
  })

  const cover = (time: string, change: 'on' | 'off', what: 'blankets' | 'wet-cloth' = 'blankets') =>
    entry('cover.placed', { what, change, parts: [DRIVE] }, { at: time })
  const under = (entries: readonly KnownEntry[]) =>
    of([planned(), started, ...entries], 'hours-covered').filter((one) => one.parts?.[0] === DRIVE)

  /** Source: ACI 306R-88 through Beall Fig. 3-38: 3 days against freezing, exposed; 2 with Type III; 2 not exposed. */
  test.each([
    [{}, '12.8 h | 72.. | 306r-88 | not-loaded-exposed+type-I-II | outside'],
    [{ cement: 'type-III' }, '12.8 h | 48.. | 306r-88 | not-loaded-exposed+type-III | outside'],
    [
      { service: 'not-loaded-not-exposed' },
      '12.8 h | 48.. | 306r-88 | not-loaded-not-exposed+type-I-II | outside',
    ],
  ] as const)('[cold] hours under cover: case %#', (choice, expected) => {
    const one = [cover(at('18:10'), 'on'), cover('2026-04-22T07:00-05:00', 'off'), night(21, '33')]
    expect(under([...one, chosen(choice)]).map(told)).toEqual([expected])
  })

  test('[cold] a cover that is not said to have come off tells no hours; wet cloth keeps no cold out', () => {
    expect(under([cover(at('18:10'), 'on'), night(21, '33')])).toMatchObject([
      { verdict: 'not-recorded', missing: ['cover-off'] },
    ])
    expect(under([cover(at('18:10'), 'on', 'wet-cloth'), night(21, '33')])).toMatchObject([
      { verdict: 'not-recorded', missing: ['cover'] },
    ])
    expect(under([cover(at('18:10'), 'on')])).toEqual([])
  })
})

describe('[evaporation] between the first concrete and the cure', () => {
  type Weather = Happening<'weather.observed'>['body']
  const weather = (clock: string, air: string, humidity: string, wind: string, more: Partial<Weather> = {}) =>
    entry(
      'weather.observed',
      { source: 'service', air: q(air, 'degF'), humidity: q(humidity, 'pct'), wind: q(wind, 'mph'), ...more },
      { at: at(clock) },
    )
  const cure = entry('cure.applied', {}, { at: at('14:10') })
  const noon = weather('12:00', '62', '34', '16')
  const base = [stamp('discharge.started', '09:45'), cure]

  /** Rates by the US form of Uno 1998, worked by hand of the job’s own rows; 68 °F is the same hour, two degrees warmer. */
  test.each([
    ['66', weather('11:00', '60', '37', '16'), '0.186 lb/ft2/h', 'inside'],
    ['66', noon, '0.186 lb/ft2/h', 'inside'],
    ['66', weather('13:00', '64', '32', '15'), '0.174 lb/ft2/h', 'inside'],
    ['66', weather('14:00', '65', '31', '14'), '0.164 lb/ft2/h', 'inside'],
    ['68', noon, '0.206 lb/ft2/h', 'outside'],
  ] as const)('[evaporation] %s °F: case %#', (temperature, row, rate, verdict) => {
    const [one, ...more] = of([...base, concrete(temperature, '09:44'), row], 'evaporation')
    expect(more).toEqual([])
    expect(`${one?.value?.text} ${one?.value?.unit}`).toBe(rate)
    expect(one).toMatchObject({ verdict, formula: 'uno-us', source: 'evaporation-02', open: 'under-most' })
    expect(one?.inputs.map(({ of: name, text, unit }) => `${name} ${text} ${unit}`)[0]).toBe(
      `concrete-temperature ${temperature} degF`,
    )
    expect(one?.notes.slice(0, 1)).toEqual(['station-wind'])
  })

  /** Source of 0.1 and 0.05: silica-fume slides ch. 4; overlays, from memory. */
  test.each([
    [
      { threshold: 'silica-fume' },
      '0.186 lb/ft2/h | ..0.1 | evaporation-silica | uno-us+silica-fume | outside',
    ],
    [{ threshold: 'overlay' }, '0.186 lb/ft2/h | ..0.05 | evaporation-overlay | uno-us+overlay | outside'],
    [
      { evaporation: 'uno-si-exact' },
      '0.186 lb/ft2/h | ..0.2 | evaporation-02 | uno-si-exact+plain | inside',
    ],
  ] as const)('[evaporation] by what was chosen: %j', (choice, expected) => {
    const entries = [...base, concrete('66', '09:44'), noon, chosen(choice)]
    expect(of(entries, 'evaporation').map(told)).toEqual([expected])
  })

  test('[evaporation] hours before the load and after its cure are left out', () => {
    const rows = [weather('09:00', '53', '49', '11'), noon, weather('15:00', '65', '31', '13')]
    expect(of([...base, concrete('66', '09:44'), ...rows], 'evaporation').map((one) => one.at)).toEqual([
      at('12:00'),
    ])
    const [open] = of([base[0]!, concrete('66', '09:44'), noon], 'evaporation')
    expect(open?.notes).toContain('no-cure-logged')
    // A cure of another day’s placing ends nothing here.
    const other = entry('cure.applied', {}, { at: '2026-04-28T12:00-05:00' })
    const late = entry(
      'weather.observed',
      { source: 'service', air: q('60', 'degF') },
      { at: '2026-04-24T12:00-05:00' },
    )
    expect(
      of([base[0]!, other, concrete('66', '09:44'), noon, late], 'evaporation').map((one) => one.at),
    ).toEqual([at('12:00')])
  })

  test('[evaporation] by the last temperature that was measured up to then, and which one is said', () => {
    const later = concrete('68', '11:30')
    const surface = entry(
      'temperature.measured',
      { of: 'surface', temperature: q('64', 'degF') },
      { at: at('11:45') },
    )
    const rows = [weather('11:00', '60', '37', '16'), noon]
    const with2 = of([...base, concrete('66', '09:44'), later, ...rows], 'evaporation')
    expect(with2.map((one) => one.inputs[0]?.text)).toEqual(['66', '68'])
    const with3 = of([...base, concrete('66', '09:44'), later, surface, ...rows], 'evaporation')
    expect(with3[1]?.inputs[0]).toMatchObject({ of: 'surface-temperature', text: '64', entry: surface.hash })
  })

  test('[evaporation] what lacks is named, and nothing is worked out', () => {
    const row = entry(
      'weather.observed',
      { source: 'gauge-here', air: q('62', 'degF'), wind: q('16', 'mph') },
      { at: at('12:00') },
    )
    expect(of([...base, row], 'evaporation')).toMatchObject([
      {
        verdict: 'not-recorded',
        missing: ['concrete-temperature', 'humidity'],
        notes: ['wind-height-unknown'],
      },
    ])
    const cold = weather('12:00', '20', '34', '16')
    expect(of([...base, concrete('66', '09:44'), cold], 'evaporation')).toMatchObject([
      { verdict: 'not-recorded', missing: [], notes: ['station-wind', 'out-of-range'] },
    ])
  })
})

describe('[sampling] from the sample to the result', () => {
  const taking = (result: string) => ({ sampledAt: at('07:48'), resultAt: at(result) })
  /** Source: ASTM C172 as summarised: tests begin within 5 min, cylinders within 15; C1064: read within 5. */
  test.each([
    ['minutes-to-slump', '07:53', '5 min | ..5 | c172 | - | inside'],
    ['minutes-to-slump', '07:54', '6 min | ..5 | c172 | - | not-recorded'],
    ['minutes-to-air', '07:57', '9 min | ..5 | c172 | - | not-recorded'],
    ['minutes-to-temperature', '07:54', '6 min | ..5 | c1064 | - | outside'],
    ['minutes-to-cylinders', '08:03', '15 min | ..15 | c172 | - | inside'],
    ['minutes-to-cylinders', '08:06', '18 min | ..15 | c172 | - | not-recorded'],
  ] as const)('[sampling] %s at %s', (name, result, expected) => {
    const load = FIRST
    const readings = {
      'minutes-to-slump': entry('slump.measured', {
        load,
        slump: q('4', 'in'),
        how: 'cone',
        taking: taking(result),
      }),
      'minutes-to-air': entry('air.measured', { load, air: q('6', 'pct'), taking: taking(result) }),
      'minutes-to-temperature': entry('temperature.measured', {
        of: 'concrete',
        load,
        temperature: q('63', 'degF'),
        taking: taking(result),
      }),
      'minutes-to-cylinders': entry('cylinders.made', {
        load,
        number: { is: 'given', text: '4' },
        doneAt: at(result),
        taking: { sampledAt: at('07:48') },
      }),
    }
    expect(of([readings[name]], name).map(told)).toEqual([expected])
  })
})

describe('[strength] both criteria', () => {
  const order = entry('mix.ordered', { strength: q('4500', 'psi') }, { at: at('05:00') })
  const made = (size?: '4x8' | '6x12') =>
    entry('cylinders.made', { load: FIRST, number: { is: 'given', text: '4' }, ...(size ? { size } : {}) })
  const report = (breaks: readonly string[], days = '28', hour = '10:00') =>
    entry(
      'strength.reported',
      { load: FIRST, days, breaks: breaks.map((one) => q(one, 'psi')) },
      { at: `2026-05-19T${hour}-05:00` },
    )

  /** Source: ACI 318-19 §26.12.3.1: two 6×12 or three 4×8; none more than 500 psi below. */
  test.each([
    ['6x12', ['5010', '5090'], '5050 psi | 4000.. | aci-318-accept | - | inside'],
    ['6x12', ['3950', '3990'], '3970 psi | 4000.. | aci-318-accept | - | outside'],
    ['6x12', ['4000', '4000'], '4000 psi | 4000.. | aci-318-accept | - | inside'],
    ['4x8', ['5010', '5090'], '5050 psi | 4000.. | aci-318-accept | - | not-recorded'],
    [undefined, ['5010', '5090'], '5050 psi | 4000.. | aci-318-accept | - | not-recorded'],
    [undefined, ['5010', '5090', '5020'], '5040 psi | 4000.. | aci-318-accept | - | inside'],
  ] as const)('[strength] %s of %j', (size, breaks, expected) => {
    expect(of([order, made(size), report(breaks)], 'strength-test').map(told)).toEqual([expected])
  })

  test('[strength] one test is too few for a running average; breaks at 7 days are no test', () => {
    const one = [order, made('6x12'), report(['5010', '5090']), report(['3620'], '7')]
    expect(of(one, 'strength-test')).toHaveLength(1)
    expect(of(one, 'strength-mean-of-three')).toMatchObject([
      { verdict: 'not-recorded', notes: ['too-few-tests'], least: { text: '4500', unit: 'psi' } },
    ])
  })

  test('[strength] three in a row are averaged', () => {
    const low = ['4400', '4400']
    const all = [
      order,
      made('6x12'),
      report(low),
      report(low, '28', '11:00'),
      report(['4600', '4600'], '28', '12:00'),
    ]
    expect(of(all, 'strength-mean-of-three').map(told)).toEqual([
      '4467 psi | 4500.. | aci-318-accept | - | outside',
    ])
    expect(of(all, 'strength-test').map(({ verdict }) => verdict)).toEqual(['inside', 'inside', 'inside'])
  })

  test('[strength] without a strength ordered there is no limit', () => {
    expect(of([made('6x12'), report(['5010', '5090'])], 'strength-test')).toMatchObject([
      { verdict: 'limit-not-stated', missing: ['strength-ordered'] },
    ])
  })
})

describe('[joints] saw cuts', () => {
  const saw = (spacing: string, depth: string, time = '2026-04-22T07:10-05:00', parts = [DRIVE]) =>
    entry(
      'joint.sawn',
      { phase: 'start', spacing: q(spacing, 'ft'), depth: q(depth, 'in'), parts },
      { at: time },
    )

  /** Source: ACI 302.1R-96 (36 thicknesses, not over 18 ft); CSA A23.1-94 (5 m); the trade’s 15 ft, from memory; t/4, ACI FAQ 915. */
  test.each([
    ['5', undefined, '16', '16 ft | ..15 | 302.1r-96 | 302.1r-96 | outside'],
    ['5', undefined, '15', '15 ft | ..15 | 302.1r-96 | 302.1r-96 | inside'],
    ['8', undefined, '18 1/2', '18.5 ft | ..18 | 302.1r-96 | 302.1r-96 | outside'],
    ['8', 'trade', '16', '16 ft | ..15 | joint-15 | trade | outside'],
    ['8', 'csa', '16', '16 ft | ..16.4 | csa-a23.1-94 | csa | inside'],
    ['8', 'none', '23', '23 ft | ..24 | 302.1r-96 | none | inside'],
  ] as const)('[joints] %s in, cap %s, %s ft', (inches, spacingCap, spacing, expected) => {
    const entries = [planned(inches), saw(spacing, '2'), ...(spacingCap ? [chosen({ spacingCap })] : [])]
    expect(of(entries, 'joint-spacing').map(told)).toEqual([expected])
  })

  test.each([
    ['1 1/4', '1.25 in | 1.25.. | faq-915 | - | inside'],
    ['1', '1 in | 1.25.. | faq-915 | - | outside'],
  ])('[joints] %s deep in 5 in', (depth, expected) => {
    expect(of([planned(), saw('10', depth)], 'joint-depth').map(told)).toEqual([expected])
  })

  test('[joints] without a plan there is nothing to judge them by', () => {
    expect(of([saw('10', '1')], 'joint-spacing')).toMatchObject([
      { verdict: 'limit-not-stated', missing: ['thickness'] },
    ])
  })

  const broom = entry('finish.done', { step: 'broom', phase: 'end', parts: [DRIVE] }, { at: at('13:45') })
  /** Source: ACI FAQ 915 (4–12 h; early entry 2–6 h); CSA A23.1-94 §20.2 (6–18 h). Which saw it was no entry says. */
  test.each([
    [undefined, '2026-04-22T07:10-05:00', '17.4 h | 4..12 | faq-915 | faq-915 | outside'],
    ['csa-a23.1-94', '2026-04-22T07:10-05:00', '17.4 h | 6..18 | csa-a23.1-94 | csa-a23.1-94 | inside'],
    [undefined, at('18:45'), '5 h | 4..12 | faq-915 | faq-915 | inside'],
    [undefined, at('21:45'), '8 h | 4..12 | faq-915 | faq-915 | not-recorded'],
  ] as const)('[joints] sawn by %s at %s', (rule, time, expected) => {
    const entries = [broom, saw('10', '1 1/4', time), ...(rule ? [chosen({ saw: rule })] : [])]
    expect(of(entries, 'saw-hours').map(told)).toEqual([expected])
  })
})

test('[findings] a load that was sent back, and a job of which nothing is said, have none', () => {
  expect(findingsOf([])).toEqual([])
  const rejected = entry('load.rejected', { load: FIRST, reason: 'late' })
  expect(findingsOf([ticket(), rejected])).toEqual([])
})
