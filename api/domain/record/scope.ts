import type { Entry } from '../entry/envelope.ts'
import type { HashedEntry } from '../entry/read.ts'
import type { Kind } from '../entry/registry.ts'
import { foldJob } from '../job/fold.ts'
import type { LoadView } from '../job/view.ts'
import { fail, ok, type Result } from '../result.ts'
import { dayOf } from '../time.ts'
import { isScoped, PERSONAL_KINDS, type RecordRequest } from './request.ts'

export type ScopeProblem = 'scope-load' | 'scope-placement' | 'scope-empty'

/** What was planned and asked for, days before: figures are measured against it, whatever the days that are asked of. */
const ORDER: readonly Kind[] = [
  'job.opened',
  'placement.planned',
  'mix.ordered',
  'editions.chosen',
  'concrete.ordered',
  'balance.ordered',
  'concrete.held',
  'loads.joined',
]

/**
 * Hashes of the job's entries whose bytes a record of this request does not hold. A load is in it whole or not at all, an
 * entry never without its corrections, and a withheld kind never in part: what shows is never made better by what doesn't.
 * Fails: `scope-load`, `scope-placement` where the job has none of that id; `scope-empty` where nothing would be left.
 */
export const leftOut = (
  job: string,
  entries: readonly HashedEntry[],
  request: RecordRequest,
): Result<ReadonlySet<string>, ScopeProblem> => {
  const { loads } = foldJob(job, entries)
  if (request.load !== undefined && !loads.some((load) => isOf(load, request.load!)))
    return fail('scope-load', request.load)
  const parts = partsOf(entries, request.placement)
  if (request.placement !== undefined && parts.size === 0) return fail('scope-placement', request.placement)

  const wanted = wantedLoads(loads, entries, request, parts)
  const isLoadWanted = (id: string) => {
    const load = loads.find((one) => isOf(one, id))
    return load === undefined ? !isScoped(request) : wanted.has(load)
  }
  const withheld = new Set<Kind>(
    request.withhold.flatMap((kind) => (kind === 'personal' ? PERSONAL_KINDS : [kind])),
  )
  const isInScope = ({ entry }: HashedEntry): boolean => {
    if (ORDER.includes(entry.kind)) return isOfPlacement(entry, request.placement)
    const load = loadOf(entry)
    if (load !== undefined) return isLoadWanted(load)
    return isOnDay(entry, request) && isInParts(entry, request.placement === undefined ? undefined : parts)
  }
  const kept = withCorrections(
    entries.filter((one) => !withheld.has(one.entry.kind)),
    isInScope,
  )
  // A photo's arrival goes with the photo.
  const photos = new Set(
    kept.flatMap(({ entry }) => (entry.kind === 'photo.taken' ? [entry.body.photo] : [])),
  )
  const given = new Set(
    kept
      .filter(({ entry }) => entry.kind !== 'photo.received' || photos.has(entry.body.photo))
      .map(({ hash }) => hash),
  )
  const arrived = entries.filter(
    ({ entry }) => entry.kind === 'photo.received' && photos.has(entry.body.photo),
  )
  for (const { hash } of arrived) given.add(hash)
  return given.size === 0
    ? fail('scope-empty')
    : ok(new Set(entries.map(({ hash }) => hash).filter((hash) => !given.has(hash))))
}

const isOf = ({ id, joined }: LoadView, asked: string): boolean => id === asked || joined.includes(asked)

const loadOf = ({ body }: Entry): string | undefined =>
  'load' in body && typeof body.load === 'string' ? body.load : undefined

const isOnDay = ({ occurredAt }: Entry, { from, to }: RecordRequest): boolean =>
  (from === undefined || dayOf(occurredAt) >= from) && (to === undefined || dayOf(occurredAt) <= to)

const partsOf = (entries: readonly HashedEntry[], placement: string | undefined): ReadonlySet<string> =>
  new Set(
    entries.flatMap(({ entry }) =>
      entry.kind === 'placement.planned' && entry.body.placement === placement
        ? entry.body.parts.map(({ part }) => part)
        : [],
    ),
  )

const isOfPlacement = (entry: Entry, placement: string | undefined): boolean =>
  entry.kind !== 'placement.planned' || placement === undefined || entry.body.placement === placement

/** Parts that an entry names; one that names none is of the whole job. */
const isInParts = ({ body }: Entry, parts: ReadonlySet<string> | undefined): boolean => {
  if (!parts) return true
  const named = [
    ...('part' in body && typeof body.part === 'string' ? [body.part] : []),
    ...('parts' in body && Array.isArray(body.parts)
      ? body.parts.filter((part): part is string => typeof part === 'string')
      : []),
  ]
  return named.length === 0 || named.some((part) => parts.has(part))
}

/** A load of which one entry fell on the days, that is the load asked for, and that went into the placement or nobody said where. */
const wantedLoads = (
  loads: readonly LoadView[],
  entries: readonly HashedEntry[],
  request: RecordRequest,
  parts: ReadonlySet<string>,
): ReadonlySet<LoadView> =>
  new Set(
    loads.filter((load) => {
      if (request.load !== undefined && !isOf(load, request.load)) return false
      const own = entries.filter(({ entry }) => {
        const id = loadOf(entry)
        return id !== undefined && isOf(load, id)
      })
      if (!own.some(({ entry }) => isOnDay(entry, request))) return false
      const places = own.flatMap(({ entry }) =>
        entry.kind === 'load.placed' ? entry.body.places.map(({ part }) => part) : [],
      )
      return request.placement === undefined || places.length === 0 || places.some((part) => parts.has(part))
    }),
  )

/** Whatever corrects or takes back what is in scope, and whatever that names, until nothing more is found. */
const withCorrections = (
  entries: readonly HashedEntry[],
  isInScope: (one: HashedEntry) => boolean,
): HashedEntry[] => {
  const byHash = new Map(entries.map((one) => [one.hash, one]))
  const correctedBy = new Map<string, HashedEntry[]>()
  for (const one of entries)
    for (const target of one.entry.corrects ?? [])
      correctedBy.set(target, [...(correctedBy.get(target) ?? []), one])
  const kept = new Set(entries.filter((one) => one.entry.kind !== 'entry.withdrawn' && isInScope(one)))
  for (const one of kept)
    for (const further of [
      ...(correctedBy.get(one.hash) ?? []),
      ...(one.entry.corrects ?? []).flatMap((hash) => byHash.get(hash) ?? []),
    ])
      kept.add(further)
  return [...kept]
}
