import * as cold from '../../domain/trade/cold.ts'
import { coldWeatherNewer, coldWeatherOlder } from '../../domain/trade/cold-weather.ts'
import { CHOICES } from '../../domain/trade/editions.ts'
import { evaporationFinding, evaporationRate, windAtSlab } from '../../domain/trade/evaporation.ts'
import { hotFinding } from '../../domain/trade/hot.ts'
import * as humid from '../../domain/trade/humidity.ts'
import { type Metar, readMetar } from '../../domain/trade/metar.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { answer, calculation, found, group, value } from './calculation.ts'
import { choice, list, maybe, measured, tuple, usually, words } from './field.ts'

const air = (says = 'air') => measured('temperature', says, RANGES.airTemperature)
const vapour = (says: string) => measured('temperature', says, RANGES.vapourTemperature)
const section = measured('length', 'least section', RANGES.section)
const curve = choice(CHOICES.vapour.of, 'which curve of saturation', CHOICES.vapour.usual)

export const WEATHER = group('Weather', [
  calculation(
    'evaporation',
    'how fast water leaves a wet surface, and the threshold of its mix',
    {
      concrete: measured('temperature', 'the surface’s, or else the concrete’s', RANGES.wetSurface),
      air: measured('temperature', 'air', RANGES.windowAir),
      humidity: measured('share', 'relative humidity', RANGES.humidity),
      wind: measured('speed', 'average, 20 in above the slab', RANGES.wind),
      form: choice(CHOICES.evaporation.of, 'which printed formula', CHOICES.evaporation.usual),
      mix: choice(['plain', 'silica-fume', 'overlay'], 'how it bleeds', 'plain'),
    },
    'concrete=87F air=80F humidity=50% wind=12mph',
    (g) => {
      const rate = evaporationRate({
        concrete: g.concrete,
        air: g.air,
        humidity: g.humidity,
        wind: g.wind,
        form: g.form ?? 'uno-us',
      })
      if (!rate.ok) return rate
      const finding = evaporationFinding(rate.value.rate, g.mix ?? 'plain')
      return answer(
        rate,
        [rate.value.source, finding.threshold.source],
        (e) => [
          ...value('rate', e.rate),
          ...value('formula', e.form),
          ...value('precautions from', finding.threshold.act),
          ...value('  as printed in metric', finding.threshold.actSi),
          ...value('caution from', finding.threshold.caution),
          ...value(
            'the rate lies',
            finding.verdict === 'inside' ? 'below the threshold' : 'at or above the threshold',
          ),
        ],
        (e) => [
          ...(e.direction === 'settles'
            ? ['Below zero: water settles on the surface, since the air is moister than it.']
            : []),
          ...(finding.near
            ? ['What isn’t known (±40 %) is more than the distance to the threshold: take it as near it.']
            : []),
        ],
      )
    },
  ),
  calculation(
    'wind',
    'a station’s wind brought down to the slab: an estimate',
    {
      wind: measured('speed', 'at the station', RANGES.wind),
      'measured-at': usually(measured('length', 'its height', RANGES.windHeight), '10m'),
      'wanted-at': usually(measured('length', 'above the slab', RANGES.windHeight), '0.5m'),
    },
    'wind=16mph',
    (g) =>
      answer(
        windAtSlab({
          wind: g.wind,
          ...(g['measured-at'] ? { measuredAt: g['measured-at'] } : {}),
          ...(g['wanted-at'] ? { wantedAt: g['wanted-at'] } : {}),
        }),
        ['power-law', 'wind-height'],
        (w) => [...value('wind, estimate', w.wind), ...value('factor', w.factor)],
        ['Trees, houses and forms make it another: measure it 20 in above the slab where you can.'],
      ),
  ),
  calculation(
    'humidity',
    'relative humidity from temperature and dew point',
    { temperature: vapour('air'), 'dew-point': vapour('dew point'), curve },
    'temperature=77F dew-point=59F',
    (g) =>
      answer(
        humid.relativeHumidity({
          temperature: g.temperature,
          dewPoint: g['dew-point'],
          curve: g.curve ?? 'azmet',
        }),
        [g.curve ?? 'azmet'],
        (rh) => value('humidity', rh),
      ),
  ),
  calculation(
    'dew-point',
    'dew point from temperature and relative humidity',
    { temperature: vapour('air'), humidity: measured('share', 'relative humidity', RANGES.someHumidity) },
    'temperature=80F humidity=50%',
    (g) => answer(humid.dewPoint(g as never), ['azmet'], (d) => value('dew point', d)),
  ),
  calculation(
    'vapour',
    'saturation vapour pressure over water',
    { temperature: vapour('air'), curve },
    'temperature=70F',
    (g) =>
      answer(
        humid.saturationPressure({ temperature: g.temperature, curve: g.curve ?? 'azmet' }),
        [g.curve ?? 'azmet'],
        (p) => value('pressure', p),
      ),
  ),
  calculation(
    'metar',
    'a station’s report, decoded',
    { report: words('the report, in quotes', 'WMO FM-15 text') },
    'report="KSFO 240156Z 26016G22KT 9SM BKN012 13/08 A3006 RMK AO2 SLP179 T01280083"',
    (g) =>
      answer(readMetar(g.report), ['metar'], metarRows, ['The wind is 10 m above ground, at that station.']),
  ),
  calculation(
    'placing',
    'placing temperatures by section and rule; with a reading, where it lies',
    {
      section,
      concrete: maybe(measured('temperature', 'as placed', RANGES.concreteTemperature)),
      rule: choice(CHOICES.placing.of, 'whose', CHOICES.placing.usual),
    },
    'section=5in concrete=63F',
    (g) =>
      answer(
        cold.placingFinding({ section: g.section, concrete: g.concrete, rule: g.rule ?? '306r-88' }),
        (f) => (f.limit ? [f.limit.source] : []),
        (f) => found(f),
      ),
  ),
  calculation(
    'placing-limit',
    'the placing temperatures alone',
    { section, rule: choice(CHOICES.placing.of, 'whose', CHOICES.placing.usual) },
    'section=5in rule=ufgs-03301a',
    (g) =>
      answer(
        cold.placingLimit({ section: g.section, rule: g.rule ?? '306r-88' }),
        (l) => [l.source],
        (l) => [...value('at least', l.least), ...value('at most', l.most)],
      ),
  ),
  calculation(
    'cold',
    'concrete in cold weather, by section and air',
    { section, air: maybe(air()) },
    'section=5in air=25F',
    (g) => {
      const row = cold.sectionRow(g.section)
      if (!row.ok) return row
      return answer(
        cold.coldWeatherRow(row.value, g.air),
        (c) => [c.source],
        (c) => [
          ...value('row, inches', c.row),
          ...value('as mixed, at least', c.leastMixed),
          ...value('as placed and kept, at least', c.leastPlaced),
          ...value('as placed, at most', c.mostPlaced),
          ...value('drop in the first 24 h after protection, at most', c.mostDropFirstDay),
        ],
      )
    },
  ),
  calculation(
    'cooling',
    'how far concrete cooled in a day after protection',
    {
      section,
      from: measured('temperature', 'before', RANGES.concreteTemperature),
      until: measured('temperature', 'after', RANGES.concreteTemperature),
    },
    'section=5in from=66F until=40F',
    (g) => answer(cold.coolingFinding(g as never), ['306r-88'], (f) => found(f)),
  ),
  calculation(
    'protection',
    'days of protection by service and cement',
    {
      service: choice(
        ['not-loaded-not-exposed', 'not-loaded-exposed', 'partly-loaded-exposed'],
        'what it bears and meets',
      ),
      cement: choice(['type-I-II', 'type-III'], 'how fast it gains', 'type-I-II'),
    },
    'service=not-loaded-exposed',
    (g) => {
      const days = cold.protectionDays(g.service ?? 'not-loaded-exposed', g.cement ?? 'type-I-II')
      return answer({ ok: true, value: days }, [days.source], (d) => [
        ...value('against freezing', d.againstFreezing),
        ...value('for strength', d.forStrength),
      ])
    },
  ),
  calculation(
    'cold-weather',
    'whether it is cold weather by the newer words',
    { lowest: air('lowest seen or expected while protected') },
    'lowest=33F',
    (g) =>
      answer(
        coldWeatherNewer(g.lowest),
        (c) => [c.source],
        (c) => [...value('cold weather', c.cold), ...value('by', c.definition)],
      ),
  ),
  calculation(
    'cold-weather-older',
    'whether it is cold weather by the older words',
    {
      days: list(
        tuple(
          { mean: air('mean of a day'), above50: measured('time', 'above 50 °F that day', RANGES.dayHours) },
          'each day',
        ),
      ),
    },
    'days=38F@0h,39F@0h,37F@0h,36F@0h',
    (g) =>
      answer(
        coldWeatherOlder(g.days),
        (c) => [c.source],
        (c) => [...value('cold weather', c.cold), ...value('by', c.definition)],
      ),
  ),
  calculation(
    'hot',
    'a concrete temperature at discharge against the most',
    {
      concrete: measured('temperature', 'at discharge', RANGES.concreteTemperature),
      rule: choice(CHOICES.hot.of, 'whose', CHOICES.hot.usual),
    },
    'concrete=92F rule=older',
    (g) =>
      answer(
        hotFinding({ concrete: g.concrete, rule: g.rule ?? '301-20' }),
        (f) => (f.limit ? [f.limit.source] : []),
        (f) => found(f),
      ),
  ),
])

const metarRows = (m: Metar) => [
  ...value('station', m.station),
  ...value(
    'day and time, UTC',
    `${m.day}, ${String(m.hour).padStart(2, '0')}:${String(m.minute).padStart(2, '0')}`,
  ),
  ...value('wind from', m.wind && (typeof m.wind.from === 'number' ? `${m.wind.from}°` : m.wind.from)),
  ...value('wind', m.wind?.speed),
  ...value('gusts', m.wind?.gust),
  ...value(
    `visibility${m.visibility && m.visibility.is !== 'given' ? `, ${m.visibility.is.replace('-', ' ')}` : ''}`,
    m.visibility?.distance,
  ),
  ...value('ceiling', m.ceiling),
  ...value('temperature', m.temperature),
  ...value('dew point', m.dewPoint),
  ...value('humidity', m.humidity),
  ...value('altimeter', m.altimeter),
  ...value('QNH', m.qnh),
  ...value('sea-level pressure', m.remarks.seaLevelPressure),
  ...m.remarks.highest6h.flatMap((t) => value('highest of 6 h', t)),
  ...m.remarks.lowest6h.flatMap((t) => value('lowest of 6 h', t)),
  ...value('highest of 24 h', m.remarks.highest24h),
  ...value('lowest of 24 h', m.remarks.lowest24h),
  ...value('not read', m.unread.length > 0 ? m.unread.join(' ') : undefined),
]
