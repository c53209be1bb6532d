import type { Entry, EntryOf } from '../../api/domain/entry/envelope.ts'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import type { Part } from '../../api/domain/job/view.ts'
import { clockOf, dayOf, type LocalTime } from '../../api/domain/time.ts'
import type { Unit } from '../../api/domain/units.ts'
import { bodyText, type Names } from '../../api/domain/words/body-lines.ts'
import type { Words } from './language.ts'

/** Texts of values for people. Each says its unit; what is not there is said in words, never left blank. */
export const showUnit = (t: Words, unit: Unit): string => t.entry().units[unit]

export const showQuantity = (t: Words, quantity: { readonly text: string; readonly unit: Unit }): string =>
  `${quantity.text} ${showUnit(t, quantity.unit)}`

/** Minutes up to two hours, then hours and minutes: a load logged in the evening is easier read so. */
export const showMinutes = (t: Words, minutes: number): string =>
  minutes < 120
    ? t('minutesCount', { minutes })
    : t('hoursCount', { hours: Math.floor(minutes / 60), minutes: minutes % 60 })

/** The clock, and the day too where it is not the day that the reader is on. */
export const showTime = (time: LocalTime, today?: LocalTime): string =>
  today === undefined || dayOf(time) === dayOf(today) ? clockOf(time) : `${dayOf(time)} ${clockOf(time)}`

export const showWater = (t: Words, amount: BodyOf<'water.added'>['amount']): string => {
  if (amount.is === 'given') return showQuantity(t, amount)
  return t(amount.is === 'none' ? 'waterNone' : 'notSure')
}

export const showSlump = (
  t: Words,
  { slump, how }: Pick<BodyOf<'slump.measured'>, 'slump' | 'how'>,
): string =>
  slump.is === 'given'
    ? `${showQuantity(t, slump)}, ${t(how === 'cone' ? 'byCone' : 'byEye')}`
    : t('notTaken')

export const showLimit = (t: Words, limit: BodyOf<'ticket.recorded'>['limit']): string =>
  limit.is === 'given'
    ? t(limit.to === 'discharge-ended' ? 'limitToEnd' : 'limitToStart', { minutes: limit.text })
    : t('limitNotStated')

export const showText = (t: Words, value: { is: 'given'; text: string } | { is: 'not-stated' }): string =>
  value.is === 'given' ? value.text : t('notOnTicket')

export const showShows = (t: Words, shows: BodyOf<'photo.taken'>['shows']): string => t.entry().codes[shows]

/** What a photo shows and where: the part by name, then the words. */
export const showPhoto = (
  t: Words,
  { shows, part, where }: Pick<BodyOf<'photo.taken'>, 'shows' | 'part' | 'where'>,
  names: Names,
): string =>
  [showShows(t, shows), part === undefined ? undefined : names.part(part), where]
    .filter((text) => text !== undefined)
    .join(', ')

/** What a kind of entry is called. */
export const kindWord = (t: Words, kind: Kind): string => t.entry().kinds[kind]

type Show<K extends Kind> = (t: Words, entry: EntryOf<K>, names: Names) => string
const clock = (_: Words, entry: { occurredAt: LocalTime }): string => clockOf(entry.occurredAt)
const nothing = (): string => ''

/** `Drive 40 ft × 20 ft × 5 in`. */
const showPart = (t: Words, { name, length, width, thickness }: Part): string =>
  `${name} ${[length, width, thickness].map((side) => showQuantity(t, side)).join(' × ')}`

/** Kinds that are said in fewer words than their fields have. */
const SHORT: { readonly [K in Kind]?: Show<K> } = {
  'role.changed': (t, { body }) => t(body.role),
  'device.withdrawn': nothing,
  'entry.refused': (_, { body }) => body.code,
  'job.opened': (_, { body }) => `${body.name}, ${body.zone}`,
  'customer.named': (_, { body }) => [body.name, ...(body.phone ? [body.phone] : [])].join(', '),
  'site.addressed': (_, { body }) => body.address,
  'placement.planned': (t, { body }) =>
    [`${body.name}:`, ...body.parts.map((part) => showPart(t, part))].join('\n'),
  'air.measured': (t, { body: { load: _, air, ...rest } }, names) =>
    [
      air.is === 'given' ? showQuantity(t, air) : t('notTaken'),
      ...(Object.keys(rest).length > 0 ? [bodyText(rest, t.entry(), names)] : []),
    ].join(', '),
  'load.arrived': clock,
  'crew.ready': clock,
  'discharge.started': clock,
  'discharge.paused': clock,
  'discharge.resumed': clock,
  'discharge.ended': clock,
  'load.left': clock,
  'slump.measured': (t, { body: { load: _, slump, how, taking } }, names) =>
    [showSlump(t, { slump, how }), ...(taking ? [bodyText(taking, t.entry(), names)] : [])].join(', '),
  'photo.taken': (t, { body }, names) => showPhoto(t, body, names),
  'photo.received': nothing,
  'remark.made': (_, { body }) => body.remark.text,
  'entry.withdrawn': nothing,
}

const UNNAMED: Names = { load: () => undefined, part: () => undefined, person: () => undefined }

/** What an entry says, in one line. Its load is left out: it stands where the load is shown. */
export const showValue = (t: Words, entry: Entry, names: Names = UNNAMED): string => {
  const short = SHORT[entry.kind] as ((t: Words, entry: Entry, names: Names) => string) | undefined
  if (short) return short(t, entry, names)
  const { load: _, part, parts, ...body } = entry.body as Placed
  const where = [...(parts ?? []), ...(part === undefined ? [] : [part])].map((id) => names.part(id) ?? id)
  return [bodyText(body, t.entry(), names), where.join(', ')].filter((text) => text !== '').join(' · ')
}

type Placed = { readonly load?: string; readonly part?: string; readonly parts?: readonly string[] }
