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
  const head = [
    speech.say('recWhen'),
    speech.say('recAirTemperature'),
    speech.field('humidity'),
    speech.field('wind'),
    speech.field('gust'),
    speech.say('recWeatherSource'),
    speech.say('recLoggedBy'),
  ]
  const lines = inTime(temperatures).map((one) => temperatureText(one, speech))
  return [
    { is: 'heading', text: speech.say('recWeatherHead') },
    weather.length === 0
      ? { is: 'paragraph', text: speech.say('recNoWeather') }
      : {
          is: 'grid',
          widths: [20, 14, 14, 14, 14, 50, 30],
          rows: [head, ...inTime(weather).map((one) => weatherRow(one, speech))],
        },
    { is: 'list', items: orElse(lines, speech.say('recNoTemperatures')) },
  ]
}

const weatherRow = (one: Weather, speech: Speech): string[] => {
  const { source, station, distance, air, humidity, wind, windHeight, gust } = one.body
  const cell = (value: Weather['body']['air'] | Weather['body']['humidity'] | Weather['body']['wind']) =>
    value === undefined ? speech.say('recNotRecorded') : speech.quantity(value)
  const from = [
    speech.words.codes[source],
    ...(station === undefined ? [] : [station]),
    ...(distance === undefined ? [] : [speech.say('recAway', { distance: speech.quantity(distance) })]),
    windHeight === undefined
      ? speech.say('recWindHeightUnknown')
      : speech.say('recWindHeight', { height: speech.quantity(windHeight) }),
  ].join(', ')
  return [speech.time(one.at), cell(air), cell(humidity), cell(wind), cell(gust), from, speech.by(one)]
}

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
