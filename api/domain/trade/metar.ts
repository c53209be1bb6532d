import { fail, ok, type Result } from '../result.ts'
import { ratio } from '../units.ts'
import { relativeHumidity } from './humidity.ts'
import { type Estimate, exactly, type Measure, measure } from './measure.ts'
import { type Remarks, readRemarks } from './metar-remarks.ts'

/** Wind as a station reports it, 10 m above ground. Calm is zero from no direction. */
export type MetarWind = {
  /** Where it comes from, true degrees; variable where it has none. */
  readonly from: number | 'variable' | 'calm'
  readonly speed: Measure<'kt'> | Measure<'m/s'> | Measure<'km/h'>
  readonly gust: Measure<'kt'> | Measure<'m/s'> | Measure<'km/h'> | undefined
}
export type MetarVisibility = {
  readonly is: 'given' | 'less-than' | 'more-than'
  readonly distance: Measure<'mi'> | Measure<'m'>
}
export type CloudCover = 'FEW' | 'SCT' | 'BKN' | 'OVC' | 'VV'
export type Cloud = { readonly cover: CloudCover; readonly base: Measure<'ft'> | undefined }

/** A report, as far as it was understood; `unread` keeps every group that was not, so that nothing is lost or guessed. */
export type Metar = {
  readonly station: string
  readonly day: number
  readonly hour: number
  readonly minute: number
  readonly automatic: boolean
  readonly wind: MetarWind | undefined
  readonly visibility: MetarVisibility | undefined
  readonly clouds: readonly Cloud[]
  /** The lowest broken or overcast layer, or how far one sees up into fog. */
  readonly ceiling: Measure<'ft'> | undefined
  /** To a tenth from the remarks where they have it, else whole degrees. */
  readonly temperature: Measure<'degC'> | undefined
  readonly dewPoint: Measure<'degC'> | undefined
  readonly humidity: Estimate<'pct'> | undefined
  readonly altimeter: Measure<'inHg'> | undefined
  readonly qnh: Measure<'hPa'> | undefined
  readonly remarks: Remarks
  readonly unread: readonly string[]
}

export type MetarProblem = 'missing' | 'no-report' | 'no-time' | 'no-station' | 'not-there'

/**
 * A station’s report, decoded. Its wind is 10 m up and its place may be miles off: whoever shows it names both. What
 * follows TEMPO, BECMG or NOSIG is a forecast and is left out.
 * Units: the report’s own: knots, °C, statute miles or metres, inHg or hPa, feet, UTC.
 * Fails: `missing`, `not-there` (NIL), `no-station`, `no-time`, `no-report` (a station and a time and nothing that can be
 * read). Source: WMO FM-15 METAR; FAA key to METAR; AFMAN 15-111 (2019) for the remarks.
 */
export const readMetar = (text: string | undefined): Result<Metar, MetarProblem> => {
  if (text === undefined || text.trim() === '') return fail('missing', '/report')
  const all = text.trim().replace(/=$/, '').toUpperCase().split(/\s+/)
  const groups = all.filter((g, i) => !(i < 3 && ['METAR', 'SPECI', 'COR'].includes(g)))
  const [station = '', time = ''] = groups
  if (!/^[A-Z][A-Z0-9]{3}$/.test(station)) return fail('no-station', '/report', { given: station })
  const at = /^([0-3]\d)([01]\d|2[0-3])([0-5]\d)Z$/.exec(time)
  if (!at || Number(at[1]) < 1 || Number(at[1]) > 31) return fail('no-time', '/report', { given: time })
  const rest = groups.slice(2)
  if (rest.includes('NIL')) return fail('not-there', '/report')
  const { body, remarks } = split(rest)
  const state = body.groups.reduce(takeGroup, { ...EMPTY, pending: undefined })
  const unread = [...state.unread, ...(state.pending ? [state.pending] : [])]
  const said = readRemarks(remarks)
  const temperature = said.temperature ?? state.temperature
  const dewPoint = said.dewPoint ?? state.dewPoint
  if (!state.wind && !temperature && !state.visibility && !state.altimeter && !state.qnh)
    return fail('no-report', '/report', { unread: unread.join(' ') })
  const humid = temperature && dewPoint && relativeHumidity({ temperature, dewPoint })
  return ok({
    station,
    day: Number(at[1]),
    hour: Number(at[2]),
    minute: Number(at[3]),
    automatic: body.automatic,
    wind: state.wind,
    visibility: state.visibility,
    clouds: state.clouds,
    ceiling: state.clouds.find(({ cover, base }) => base && ['BKN', 'OVC', 'VV'].includes(cover))?.base,
    temperature,
    dewPoint,
    humidity: humid?.ok ? humid.value : undefined,
    altimeter: state.altimeter,
    qnh: state.qnh,
    remarks: said,
    unread: [...unread, ...said.unread],
  })
}

const split = (groups: readonly string[]) => {
  const rmk = groups.indexOf('RMK')
  const remarks = rmk < 0 ? [] : groups.slice(rmk + 1)
  const before = rmk < 0 ? groups : groups.slice(0, rmk)
  const trend = before.findIndex((g) => ['TEMPO', 'BECMG', 'NOSIG'].includes(g))
  const now = trend < 0 ? before : before.slice(0, trend)
  const plain = now.filter((g) => g !== 'AUTO' && g !== 'COR')
  return { body: { groups: plain, automatic: now.includes('AUTO') }, remarks }
}

type Body = {
  readonly wind: MetarWind | undefined
  readonly visibility: MetarVisibility | undefined
  readonly clouds: readonly Cloud[]
  readonly temperature: Measure<'degC'> | undefined
  readonly dewPoint: Measure<'degC'> | undefined
  readonly altimeter: Measure<'inHg'> | undefined
  readonly qnh: Measure<'hPa'> | undefined
  readonly unread: readonly string[]
  /** A whole number of miles that its fraction follows: `1 1/2SM`. */
  readonly pending: string | undefined
}
const EMPTY: Omit<Body, 'pending'> = {
  wind: undefined,
  visibility: undefined,
  clouds: [],
  temperature: undefined,
  dewPoint: undefined,
  altimeter: undefined,
  qnh: undefined,
  unread: [],
}

const takeGroup = (body: Body, group: string): Body => {
  if (body.pending !== undefined) {
    const joined = visibilityOf(`${body.pending} ${group}`)
    if (joined) return { ...body, visibility: joined, pending: undefined }
    return takeGroup({ ...body, unread: [...body.unread, body.pending], pending: undefined }, group)
  }
  const wind = windOf(group)
  if (wind && !body.wind) return { ...body, wind }
  // Which way it swings between, lost for lack of a use; not unread.
  if (/^\d{3}V\d{3}$/.test(group)) return body
  if (/^\d$/.test(group)) return { ...body, pending: group }
  const visibility = visibilityOf(group)
  if (visibility && !body.visibility) return { ...body, visibility }
  if (/^(?:CLR|SKC|NSC|NCD)$/.test(group)) return body
  if (/^R\d\d[LCR]?\//.test(group) || isWeather(group)) return body
  const cloud = cloudOf(group)
  if (cloud) return { ...body, clouds: [...body.clouds, cloud] }
  const air = /^(M?\d\d)\/(M?\d\d|\/\/)?$/.exec(group)
  if (air && !body.temperature)
    return {
      ...body,
      temperature: degrees(air[1]!),
      dewPoint: /\d/.test(air[2] ?? '') ? degrees(air[2]!) : undefined,
    }
  const a = /^A(\d{4})$/.exec(group)
  if (a) return { ...body, altimeter: measure(ratio(BigInt(a[1]!), 100n), 'inHg') }
  const q = /^Q(\d{4})$/.exec(group)
  if (q) return { ...body, qnh: exactly(String(Number(q[1])), 'hPa') }
  return { ...body, unread: [...body.unread, group] }
}

const SPEED_UNITS = { KT: 'kt', MPS: 'm/s', KMH: 'km/h' } as const

const windOf = (group: string): MetarWind | undefined => {
  const match = /^(\d{3}|VRB)(\d{2,3})(?:G(\d{2,3}))?(KT|MPS|KMH)$/.exec(group)
  if (!match || Number(match[1]) > 360) return undefined
  const unit = SPEED_UNITS[match[4] as keyof typeof SPEED_UNITS]
  const speed = measure(ratio(BigInt(match[2]!)), unit) as MetarWind['speed']
  const gust =
    match[3] === undefined ? undefined : (measure(ratio(BigInt(match[3])), unit) as MetarWind['speed'])
  if (match[1] === 'VRB') return { from: 'variable', speed, gust }
  return { from: match[1] === '000' && speed.n === 0n ? 'calm' : Number(match[1]), speed, gust }
}

const visibilityOf = (group: string): MetarVisibility | undefined => {
  // 9999 means ten kilometres or more, and CAVOK that and no cloud that matters.
  if (group === '9999' || group === 'CAVOK') return { is: 'more-than', distance: exactly('10000', 'm') }
  if (/^\d{4}(?:NDV)?$/.test(group))
    return { is: 'given', distance: exactly(String(Number(group.slice(0, 4))), 'm') }
  const match = /^([MP])?((?:\d )?\d{1,2}(?:\/\d{1,2})?)SM$/.exec(group)
  if (!match || /\/0+$/.test(match[2]!)) return undefined
  const is = match[1] === 'M' ? 'less-than' : match[1] === 'P' ? 'more-than' : 'given'
  return { is, distance: exactly(match[2]!, 'mi') }
}

const cloudOf = (group: string): Cloud | undefined => {
  const match = /^(FEW|SCT|BKN|OVC|VV)(\d{3}|\/\/\/)(?:CB|TCU|\/\/\/)?$/.exec(group)
  if (!match) return undefined
  const base = match[2] === '///' ? undefined : measure(ratio(BigInt(match[2]!) * 100n), 'ft')
  return { cover: match[1] as CloudCover, base }
}

/** Present weather: an intensity, a description and what falls or hangs in the air, by WMO code table 4678. */
const isWeather = (group: string): boolean =>
  /^(?:[-+]|VC|RE)?(?:MI|PR|BC|DR|BL|SH|TS|FZ)?(?:DZ|RA|SN|SG|IC|PL|GR|GS|UP|BR|FG|FU|VA|DU|SA|HZ|PY|PO|SQ|FC|SS|DS){0,3}$/.test(
    group,
  ) && group.length >= 2

const degrees = (text: string): Measure<'degC'> => exactly(text.replace('M', '-'), 'degC')
