import type { JobSayings } from '../job-model.ts'
import type { RecordModel } from '../model.ts'
import { readingText } from './answers.ts'
import { type Block, orElse } from './blocks.ts'
import { inTime } from './in-time.ts'
import type { Speech } from './speech.ts'
import { takingText } from './taking.ts'

type Weather = JobSayings['weather'][number]

/** Weather hour by hour with where it comes from, and the temperatures that belong to no load. */
export const weatherBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const { weather, temperatures } = job.said
  const sources = new Set(weather.map(({ body }) => sourceText(body, speech)))
  // One source of all is said once.
  const source = sources.size === 1 ? [...sources][0] : undefined
  const head = [
    speech.say('recWhen'),
    speech.say('recAirTemperature'),
    speech.field('humidity'),
    speech.field('wind'),
    speech.field('gust'),
    ...(source === undefined ? [speech.say('recWeatherSource')] : []),
    speech.say('recLoggedBy'),
  ]
  const lines = inTime(temperatures).map((one) => temperatureText(one, speech))
  return [
    { is: 'heading', text: speech.say('recWeatherHead') },
    weather.length === 0
      ? { is: 'paragraph', text: speech.say('recNoWeather') }
      : {
          is: 'grid',
          widths: [26, 20, 20, 20, 20, ...(source === undefined ? [46] : []), 38],
          rows: [head, ...inTime(weather).map((one) => weatherRow(one, source === undefined, speech))],
        },
    ...(source === undefined
      ? []
      : [{ is: 'paragraph', text: speech.say('recWeatherFrom', { source }) } as const]),
    { is: 'list', items: orElse(lines, speech.say('recNoTemperatures')) },
  ]
}

const weatherRow = (one: Weather, withSource: boolean, speech: Speech): string[] => {
  const { air, humidity, wind, gust } = one.body
  const cell = (value: typeof air | typeof humidity | typeof wind) =>
    value === undefined ? speech.say('recNotRecorded') : speech.quantity(value)
  return [
    speech.time(one.at),
    cell(air),
    cell(humidity),
    cell(wind),
    cell(gust),
    ...(withSource ? [sourceText(one.body, speech)] : []),
    speech.by(one),
  ]
}

/** A gauge here, a station so far away, or somebody's feeling; and how high its wind is measured. */
const sourceText = ({ source, station, distance, windHeight }: Weather['body'], speech: Speech): string =>
  [
    speech.words.codes[source],
    ...(station === undefined ? [] : [station]),
    ...(distance === undefined ? [] : [speech.say('recAway', { distance: speech.quantity(distance) })]),
    windHeight === undefined
      ? speech.say('recWindHeightUnknown')
      : speech.say('recWindHeight', { height: speech.quantity(windHeight) }),
  ].join(', ')

type Temperature = JobSayings['temperatures'][number]

const temperatureText = (one: Temperature, speech: Speech): string => {
  const { of, temperature, part, taking } = one.body
  const label = speech.say(
    of === 'air'
      ? 'recAirTemperature'
      : of === 'surface'
        ? 'recSurfaceTemperature'
        : 'recConcreteTemperature',
  )
  const where = part === undefined ? '' : `, ${speech.where([part])}`
  const value = `${label}${where}: ${readingText(temperature, speech)}`
  return [speech.saidAt(value, one), ...(taking === undefined ? [] : [takingText(taking, speech)])].join('; ')
}
