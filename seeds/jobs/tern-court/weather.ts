import { given } from '../../step.ts'
import { type DeviceName, pour, type TernStep } from './site.ts'

type Row = readonly [clock: string, air: string, humidity: string, wind: string, gust?: string]

/** What the phone's weather service gave for a station 11 miles off: nobody measured wind at the slab. */
const ROWS: readonly Row[] = [
  ['06:00', '42', '68', '4'],
  ['07:00', '46', '62', '6'],
  ['08:00', '49', '57', '8'],
  ['09:00', '53', '49', '11'],
  ['10:00', '57', '42', '14'],
  ['11:00', '60', '37', '16', '22'],
  ['12:00', '62', '34', '16', '22'],
  ['13:00', '64', '32', '15', '22'],
  ['14:00', '65', '31', '14'],
  ['15:00', '65', '31', '13'],
  ['16:00', '64', '33', '11'],
  ['17:00', '62', '36', '9'],
  ['18:00', '58', '42', '7'],
]

const SERVICE = {
  source: 'service',
  station: 'the phone’s weather service',
  distance: given('11', 'mi'),
} as const

const on: DeviceName = 'curt'

const rowStep = ([clock, air, humidity, wind, gust]: Row, logged: string): TernStep => ({
  on,
  at: pour(clock),
  logged: pour(logged),
  kind: 'weather.observed',
  body: {
    ...SERVICE,
    air: given(air, 'degF'),
    humidity: given(humidity, 'pct'),
    wind: given(wind, 'mph'),
    ...(gust === undefined ? {} : { gust: given(gust, 'mph') }),
  },
})

/** Looked up twice that day, so that most rows are late; the night's low was looked up next morning. */
export const WEATHER: readonly TernStep[] = [
  ...ROWS.filter(([clock]) => clock <= '12:00').map((row) => rowStep(row, '12:04')),
  ...ROWS.filter(([clock]) => clock > '12:00').map((row) => rowStep(row, '18:14')),
  {
    on,
    at: '2026-04-22 05:20',
    logged: '2026-04-22 07:02',
    kind: 'weather.observed',
    body: { ...SERVICE, air: given('33', 'degF') },
  },
]
