import type { Entry, EntryOf } from '../../api/domain/entry/envelope.ts'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import { clockOf, dayOf, type LocalTime } from '../../api/domain/time.ts'
import type { Unit } from '../../api/domain/units.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { Words } from './language.ts'

/** Texts of values for people. Each says its unit; what is not there is said in words, never left blank. */
const UNIT_WORDS: Record<Unit, LabelKey> = {
  in: 'unitIn',
  ft: 'unitFt',
  mm: 'unitMm',
  yd3: 'unitYd3',
  m3: 'unitM3',
  gal: 'unitGal',
  L: 'unitL',
  min: 'unitMin',
}

export const showUnit = (t: Words, unit: Unit): string => t(UNIT_WORDS[unit])

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

export const SHOWS: Record<BodyOf<'photo.taken'>['shows'], LabelKey> = {
  ticket: 'photoTicket',
  load: 'photoLoad',
  base: 'photoBase',
  surface: 'photoSurface',
  defect: 'photoDefect',
  other: 'photoOther',
}

/** What a kind of entry is called. */
export const KIND_WORDS: Record<Kind, LabelKey> = {
  'company.founded': 'kindCompanyFounded',
  'owner.named': 'kindOwnerNamed',
  'person.added': 'kindPersonAdded',
  'role.changed': 'kindRoleChanged',
  'device.enrolled': 'kindDeviceEnrolled',
  'device.withdrawn': 'kindDeviceWithdrawn',
  'entry.refused': 'kindEntryRefused',
  'job.opened': 'kindJobOpened',
  'concrete.ordered': 'ordered',
  'ticket.recorded': 'kindTicket',
  'load.arrived': 'arrived',
  'discharge.started': 'dischargeStarted',
  'discharge.ended': 'dischargeEnded',
  'load.left': 'truckLeft',
  'water.added': 'water',
  'slump.measured': 'slump',
  'photo.taken': 'kindPhoto',
  'photo.received': 'kindPhotoReceived',
  'remark.made': 'remark',
  'entry.withdrawn': 'kindWithdrawn',
}

type Show<K extends Kind> = (t: Words, entry: EntryOf<K>) => string
const clock = (_: Words, entry: { occurredAt: LocalTime }): string => clockOf(entry.occurredAt)
const VALUES: { readonly [K in Kind]: Show<K> } = {
  'company.founded': (_, { body }) => body.name,
  'owner.named': (_, { body }) => body.name,
  'person.added': (_, { body }) => body.name,
  'role.changed': (t, { body }) => t(body.role),
  'device.enrolled': (_, { body }) => body.use,
  'device.withdrawn': () => '',
  'entry.refused': (_, { body }) => body.code,
  'job.opened': (_, { body }) => `${body.name} · ${body.zone}`,
  'concrete.ordered': (t, { body }) => showQuantity(t, body.yards),
  'ticket.recorded': (t, { body }) =>
    [
      `${t('ticketNumber')} ${showText(t, body.number)}`,
      `${t('truck')} ${showText(t, body.truck)}`,
      `${t('yards')} ${body.yards.is === 'given' ? showQuantity(t, body.yards) : t('notOnTicket')}`,
      `${t('batched')} ${body.batchedAt.is === 'given' ? clockOf(body.batchedAt.at) : t('notOnTicket')}`,
      showLimit(t, body.limit),
    ].join(' · '),
  'load.arrived': clock,
  'discharge.started': clock,
  'discharge.ended': clock,
  'load.left': clock,
  'water.added': (t, { body }) => showWater(t, body.amount),
  'slump.measured': (t, { body }) => showSlump(t, body),
  'photo.taken': (t, { body }) => t(SHOWS[body.shows]),
  'photo.received': () => '',
  'remark.made': (_, { body }) => body.remark.text,
  'entry.withdrawn': () => '',
}

export const showValue = (t: Words, entry: Entry): string =>
  (VALUES[entry.kind] as (t: Words, entry: Entry) => string)(t, entry)
