import * as cold from '../../../../api/domain/trade/cold.ts'
import { coldWeatherNewer, coldWeatherOlder } from '../../../../api/domain/trade/cold-weather.ts'
import {
  type BleedKind,
  EVAPORATION_THRESHOLDS,
  type EvaporationForm,
  evaporationRate,
  WIND_HEIGHT,
  windAtSlab,
} from '../../../../api/domain/trade/evaporation.ts'
import { HOT_LIMITS } from '../../../../api/domain/trade/hot.ts'
import * as humid from '../../../../api/domain/trade/humidity.ts'
import { type Temperature, toUnit } from '../../../../api/domain/trade/measure.ts'
import { readMetar } from '../../../../api/domain/trade/metar.ts'
import { readRemarks } from '../../../../api/domain/trade/metar-remarks.ts'
import { type Binding, given, NotOfThisShape, pick, type Reader, yes } from '../bind.ts'
import { exactNumber } from '../keys.ts'

const rate = (a: Reader, form: EvaporationForm) => {
  const r = evaporationRate({
    concrete: a.of('concrete_temp', 'temperature'),
    air: a.of('air_temp', 'temperature'),
    humidity: a.of('rh', 'share'),
    wind: a.of('wind', 'speed'),
    form,
  })
  return r
}
const KINDS: readonly (readonly [RegExp, BleedKind])[] = [
  [/silica|low.?bleed/, 'silica-fume'],
  [/latex|overlay/, 'overlay'],
  [/plain|normal/, 'plain'],
]
const SERVICES: readonly (readonly [RegExp, cold.Service])[] = [
  [/^not loaded, not exposed|^unloaded, unexposed/, 'not-loaded-not-exposed'],
  [/^not loaded, exposed|^unloaded, exposed/, 'not-loaded-exposed'],
  [/^partially loaded|^partly loaded/, 'partly-loaded-exposed'],
]
const isRow = (text: string | undefined): text is cold.SectionRow =>
  ['<12', '12-36', '36-72', '>72'].includes(text ?? '')
const rowOf = (a: Reader): cold.SectionRow => {
  const text = a.text('section')
  if (!isRow(text)) throw new NotOfThisShape()
  return text
}
const numberOf = (m: { n: bigint; d: bigint } | undefined) => m && Number(m.n) / Number(m.d)

export const WEATHER: readonly Binding[] = [
  {
    function: 'evaporation.evaporationRate',
    needs: ['concrete_temp', 'air_temp', 'rh', 'wind'],
    // The dew point beside a humidity says the same thing twice.
    may: ['dew_point'],
    gives: (a) => {
      const all = {
        us: rate(a, 'uno-us'),
        si: rate(a, 'uno-si-rounded'),
        exact: rate(a, 'uno-si-exact'),
        menzel: rate(a, 'menzel'),
      }
      if (!all.us.ok) return { refused: all.us.problem }
      if (!all.si.ok || !all.exact.ok || !all.menzel.ok) throw new NotOfThisShape()
      return {
        uno_us: all.us.value.rate,
        nomograph: all.us.value.rate,
        table: all.us.value.rate,
        equation_lb_ft2_h: all.us.value.rate.estimate,
        equation_kg_m2_h: all.si.value.rateSi.estimate,
        uno_si: all.si.value.rateSi,
        exact_si: all.exact.value.rateSi,
        menzel: all.menzel.value.rate,
        evaporation: all.us.value.rate,
      }
    },
  },
  {
    function: 'evaporation.EVAPORATION_THRESHOLDS',
    needs: ['threshold'],
    when: (a) => /^action|^act$/.test(a.text('threshold') ?? ''),
    gives: () => ({
      lb_ft2_h: numberOf(EVAPORATION_THRESHOLDS.plain.act),
      kg_m2_h: numberOf(EVAPORATION_THRESHOLDS.plain.actSi),
    }),
  },
  {
    function: 'evaporation.EVAPORATION_THRESHOLDS',
    needs: ['threshold'],
    when: (a) => /^caution/.test(a.text('threshold') ?? ''),
    gives: () => ({
      kg_m2_h: numberOf(EVAPORATION_THRESHOLDS.plain.caution),
      lb_ft2_h: numberOf(EVAPORATION_THRESHOLDS.plain.cautionUs),
    }),
  },
  {
    function: 'evaporation.EVAPORATION_THRESHOLDS',
    needs: ['mix'],
    gives: (a) => {
      const { act } = EVAPORATION_THRESHOLDS[pick(a.text('mix'), KINDS)]
      return {
        '': act,
        action: act,
        action_fraction_of_normal: numberOf(act)! / numberOf(EVAPORATION_THRESHOLDS.plain.act)!,
      }
    },
  },
  {
    function: 'evaporation.WIND_HEIGHT',
    needs: ['measure'],
    when: (a) => a.text('measure') === 'wind',
    gives: () => ({
      height_in: numberOf(WIND_HEIGHT.us),
      height_m: numberOf(WIND_HEIGHT.metric),
      use: WIND_HEIGHT.use,
    }),
  },
  {
    function: 'evaporation.windAtSlab',
    needs: ['station_wind'],
    gives: (a) =>
      given(windAtSlab({ wind: a.of('station_wind', 'speed') }), (w) => ({
        wind: w.wind,
        wind_at_slab: w.wind,
        slab_wind: w.wind,
        factor: w.factor,
      })),
  },
  {
    function: 'cold.coldWeatherRow',
    needs: ['section'],
    may: ['air_temp'],
    gives: (a) =>
      given(cold.coldWeatherRow(rowOf(a), a.of('air_temp', 'temperature')), (r) => ({
        min_as_mixed_temp: r.leastMixed,
        min_placing_and_curing_temp: r.leastPlaced,
        min_placing_temp: r.leastPlaced,
        max_placing_temp: r.mostPlaced,
        max_drop_first_24h: r.mostDropFirstDay,
      })),
  },
  {
    function: 'cold.protectionDays',
    needs: ['service'],
    gives: (a) => {
      const service = pick(a.text('service'), SERVICES)
      const [usual, fast] = [
        cold.protectionDays(service, 'type-I-II'),
        cold.protectionDays(service, 'type-III'),
      ]
      return {
        freeze_days_type_I_II: numberOf(usual.againstFreezing),
        freeze_days_type_III: numberOf(fast.againstFreezing),
        safe_days_type_I_II: numberOf(usual.forStrength),
        safe_days_type_III: numberOf(fast.forStrength),
      }
    },
  },
  {
    function: 'cold.placingFinding',
    needs: ['min_dimension', 'concrete_temp'],
    gives: (a) =>
      given(
        cold.placingFinding({
          section: a.of('min_dimension', 'length'),
          concrete: a.of('concrete_temp', 'temperature'),
          rule: 'ufgs-03301a',
        }),
        (f) => ({ placing_temp_ok: yes(f) }),
      ),
  },
  {
    function: 'cold.UFGS_AMBIENT',
    needs: ['rule'],
    when: (a) => /ambient and receiving/.test(a.text('rule') ?? ''),
    gives: () => ({
      min: cold.UFGS_AMBIENT.least,
      min_F: numberOf(cold.UFGS_AMBIENT.least),
      strictly_above: cold.UFGS_AMBIENT.open === 'over-least',
    }),
  },
  {
    function: 'cold.UFGS_COOLING',
    needs: ['rule'],
    when: (a) => /cooling after heat/.test(a.text('rule') ?? ''),
    gives: () => ({
      max_drop_per_h: cold.UFGS_COOLING.mostDropAnHour,
      max_drop_per_24h: cold.UFGS_COOLING.mostDropADay,
      heat_when_ambient_below: cold.UFGS_COOLING.heatBelow,
      maintain_min_F: numberOf(cold.UFGS_COOLING.keepAt),
    }),
  },
  {
    function: 'cold-weather.coldWeatherOlder',
    needs: ['daily_avg_air', 'hours_above_50F'],
    gives: (a) => {
      const means = a.list('daily_avg_air', 'temperature') as Temperature[]
      const hours = hoursOf(a)
      if (hours.length !== means.length) throw new NotOfThisShape()
      const days = means.map((mean, i) => ({ mean, above50: hours[i]! }))
      return given(coldWeatherOlder(days), (c) => ({ cold_weather_old: c.cold }))
    },
  },
  {
    function: 'cold-weather.coldWeatherNewer',
    needs: ['lowest_expected_air_F_in_protection_period'],
    gives: (a) => {
      const m = a.of('lowest_expected_air_F_in_protection_period', 'number')
      return given(coldWeatherNewer(m && { n: m.n, d: m.d, unit: 'degF' }), (c) => ({
        cold_weather_new: c.cold,
      }))
    },
  },
  {
    function: 'cold.FREEZE_STRENGTH',
    needs: ['question'],
    when: (a) => /strength before repeated freeze/.test(a.text('question') ?? ''),
    gives: () => ({ '': cold.FREEZE_STRENGTH.cycles.least }),
  },
  {
    function: 'cold.FREEZE_STRENGTH',
    needs: ['question'],
    when: (a) => /strength before (?:one|a single|first) freez/.test(a.text('question') ?? ''),
    gives: () => ({ '': cold.FREEZE_STRENGTH.once.least }),
  },
  {
    function: 'hot.HOT_LIMITS',
    needs: ['question'],
    when: (a) => /max concrete temp/.test(a.text('question') ?? ''),
    gives: (a) => {
      const { most } = HOT_LIMITS[/older|old /.test(a.text('question') ?? '') ? 'older' : '301-20']
      return { max: most, max_F: numberOf(most), max_C: most && numberOf(toUnit(most, 'degC')) }
    },
  },
  {
    function: 'humidity.saturationPressure',
    needs: ['temp'],
    gives: (a) =>
      given(humid.saturationPressure({ temperature: a.of('temp', 'temperature') }), (p) => ({ svp: p })),
  },
  {
    function: 'humidity.relativeHumidity',
    needs: ['temp', 'dew_point'],
    gives: (a) =>
      given(
        humid.relativeHumidity({
          temperature: a.of('temp', 'temperature'),
          dewPoint: a.of('dew_point', 'temperature'),
        }),
        (rh) => ({ rh }),
      ),
  },
  {
    function: 'humidity.dewPoint',
    needs: ['temp', 'rh'],
    gives: (a) =>
      given(
        humid.dewPoint({ temperature: a.of('temp', 'temperature'), humidity: a.of('rh', 'share') }),
        (d) => ({
          dewpoint: d,
          dew_point: d,
        }),
      ),
  },
  {
    function: 'metar.readMetar',
    needs: ['metar'],
    gives: (a) =>
      given(readMetar(a.text('metar')), (m) => ({
        station: m.station,
        day: m.day,
        hour_utc: m.hour,
        minute: m.minute,
        wind_dir_deg:
          typeof m.wind?.from === 'number' ? m.wind.from : m.wind?.from === 'calm' ? 0 : undefined,
        wind: m.wind?.speed,
        gust: m.wind?.gust,
        visibility: m.visibility?.distance,
        visibility_m: m.visibility?.distance.unit === 'm' ? numberOf(m.visibility.distance) : undefined,
        temp: m.temperature,
        dewpoint: m.dewPoint,
        rh: m.humidity,
        altimeter: m.altimeter,
        qnh: m.qnh,
        slp: m.remarks.seaLevelPressure,
        ceiling: m.ceiling,
        max6h: m.remarks.highest6h[0],
        min6h: m.remarks.lowest6h[0],
        max24h: m.remarks.highest24h,
        min24h: m.remarks.lowest24h,
      })),
  },
  {
    function: 'metar-remarks.readRemarks',
    needs: ['group'],
    may: ['body'],
    gives: (a) => {
      const r = readRemarks([a.text('group') ?? ''])
      return { temp: r.temperature, dewpoint: r.dewPoint, slp: r.seaLevelPressure }
    },
  },
  {
    function: 'metar-remarks.readRemarks',
    needs: ['groups'],
    gives: (a) => {
      const groups = a.raw('groups')
      if (!Array.isArray(groups)) throw new NotOfThisShape()
      const r = readRemarks(groups as string[])
      return {
        max: r.highest6h,
        min: r.lowest6h,
        max_C: r.highest6h.map(numberOf),
        min_C: r.lowest6h.map(numberOf),
      }
    },
  },
]

/** The key ends in what looks like a unit of its own, so its numbers are plain. */
const hoursOf = (a: Reader) => {
  const all = a.raw('hours_above_50F')
  if (!Array.isArray(all)) throw new NotOfThisShape()
  return all.map((one: { n: bigint; d: bigint } | number) => {
    const r = typeof one === 'number' ? exactNumber(one) : one
    return { n: r.n, d: r.d, unit: 'h' as const }
  })
}
