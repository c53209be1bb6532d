import { KINDS, type Kind } from '../entry/registry.ts'
import { fail, ok, type Result } from '../result.ts'

/**
 * What a record was asked to be of, and what it was asked to keep back. Days are the site's, as entries have them, both
 * included. What is left out stays in count and place: its leaf is there, its bytes are not.
 */
export type RecordRequest = {
  readonly placement?: string
  readonly load?: string
  readonly from?: string
  readonly to?: string
  /** Sorted, each once. */
  readonly withhold: readonly Withheld[]
}
export type Withheld = Kind | 'personal'

export const WHOLE_JOB: RecordRequest = { withhold: [] }

/** Names, addresses and phone numbers of people who are not of the company. */
export const PERSONAL_KINDS: readonly Kind[] = ['customer.named', 'site.addressed']

/** Without these the others would be read wrongly: which job, which loads are one, what was taken back. */
const NEVER: readonly Kind[] = ['job.opened', 'loads.joined', 'entry.withdrawn', 'photo.received']

const isWithheld = (value: string): value is Withheld =>
  value === 'personal' || (Object.hasOwn(KINDS, value) && KINDS[value as Kind].thread === 'job')

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/
const DAY = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/

export type RequestProblem = 'request-id' | 'request-day' | 'request-kind' | 'request-kind-needed'

/** As it came over the wire or the command line: text alone. Fails with the member at fault. */
export const readRequest = (asked: {
  readonly placement?: string | undefined
  readonly load?: string | undefined
  readonly from?: string | undefined
  readonly to?: string | undefined
  readonly withhold?: readonly string[] | undefined
}): Result<RecordRequest, RequestProblem> => {
  const { placement, load, from, to, withhold = [] } = asked
  for (const [at, id] of Object.entries({ placement, load }))
    if (id !== undefined && !UUID.test(id)) return fail('request-id', at)
  for (const [at, day] of Object.entries({ from, to }))
    if (day !== undefined && !DAY.test(day)) return fail('request-day', at)
  if (from !== undefined && to !== undefined && to < from) return fail('request-day', 'to')
  const kinds: Withheld[] = []
  for (const kind of withhold) {
    if (!isWithheld(kind)) return fail('request-kind', kind)
    if (kind !== 'personal' && NEVER.includes(kind)) return fail('request-kind-needed', kind)
    kinds.push(kind)
  }
  return ok({
    ...(placement === undefined ? {} : { placement }),
    ...(load === undefined ? {} : { load }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    withhold: [...new Set(kinds)].sort(),
  })
}

/** As record.json states it. Undefined where it has another form. */
export const statedRequest = (value: unknown): RecordRequest | undefined => {
  if (typeof value !== 'object' || value === null) return undefined
  const { placement, load, from, to, withhold, ...more } = value as Readonly<Record<string, unknown>>
  const isText = (one: unknown): one is string | undefined => one === undefined || typeof one === 'string'
  if (
    Object.keys(more).length > 0 ||
    !Array.isArray(withhold) ||
    !withhold.every((k) => typeof k === 'string')
  )
    return undefined
  if (!isText(placement) || !isText(load) || !isText(from) || !isText(to)) return undefined
  const read = readRequest({ placement, load, from, to, withhold })
  return read.ok ? read.value : undefined
}

export const isScoped = ({ placement, load, from, to }: RecordRequest): boolean =>
  [placement, load, from, to].some((one) => one !== undefined)
