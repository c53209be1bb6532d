import { createContext, createMemo, createSignal, useContext } from 'solid-js'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import { type JobFigures, jobFigures, type LoadFigures } from '../../api/domain/job/figures.ts'
import type { HistoryLine, JobView, LoadView } from '../../api/domain/job/view.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import type { Names } from '../../api/domain/words/body-lines.ts'
import type { Draft } from './draft.ts'
import type { Words } from './language.ts'
import type { Phone } from './phone.ts'
import { createUndo, type JustTapped } from './undo.ts'

/** What lies over the job's screen at the moment. */
export type Over =
  /** `given` is what was answered by the touch that opened the form. */
  | {
      readonly is: 'new'
      readonly kind: Kind
      readonly load?: string
      readonly given?: Partial<BodyOf<Kind>>
    }
  /** Photos, several at once. */
  | { readonly is: 'photos'; readonly load?: string }
  | { readonly is: 'entry'; readonly hash: string }
  /** `corrects` holds every rival answer where a conflict is settled. */
  | { readonly is: 'correct'; readonly hash: string; readonly corrects: readonly string[] }
  | { readonly is: 'take-back'; readonly hash: string }
  | { readonly is: 'slip' }
  /** A number by knuckle, asked at the chute. */
  | { readonly is: 'quick'; readonly ask: QuickAsk; readonly load: string }
  /** A load in large type, before its ticket is signed. */
  | { readonly is: 'read-out'; readonly load: string }
  /** What the log still lacks, quickest first. */
  | { readonly is: 'blanks' }

/** What a knuckle pad can ask of a load. */
export type QuickAsk = 'slump' | 'air' | 'concrete-temperature' | 'water' | 'left-over'

export type Why = { readonly lang: string; readonly text: string }

/** One job as this phone has it, and what can be done in it. */
export type JobHere = {
  readonly job: string
  readonly view: () => JobView
  readonly figures: () => JobFigures
  readonly zone: () => string
  readonly name: () => string | undefined
  readonly loadIds: () => readonly string[]
  readonly load: (id: string) => LoadView | undefined
  readonly loadFigures: (id: string) => LoadFigures | undefined
  readonly line: (hash: string) => HistoryLine | undefined
  /** Entries of these kinds that stand, of one load or of none; in the order in which they happened. */
  readonly standing: (kinds: readonly Kind[], load?: string) => readonly HistoryLine[]
  /** The parts of the slab that were planned, by name. */
  readonly parts: () => readonly { readonly id: string; readonly name: string }[]
  /** Names of what this job's entries name by id. */
  readonly names: (t: Words) => Names
  readonly over: () => Over | undefined
  setOver(over: Over | undefined): void
  /** Now, as the clock on the site shows it. */
  readonly localNow: () => LocalTime
  log<K extends Kind>(
    kind: K,
    draft: Draft<K>,
    correction?: { corrects: readonly string[]; why: Why },
  ): Promise<boolean>
  /** One tap: it happened now. */
  tap<K extends Kind>(kind: K, body: BodyOf<K>): Promise<boolean>
  /** The tap that one more touch can still take back. */
  readonly just: () => JustTapped | undefined
  /** A tap was kept a moment ago; what is touched now may be the same touch. */
  readonly isSettling: () => boolean
  /** Takes the last tap back: a further entry, with `why` as its reason. */
  undo(why: Why): Promise<boolean>
}

export const createJobHere = (phone: Phone, job: string): JobHere => {
  const view = createMemo(() => phone.jobs.view(job))
  const figures = createMemo(() => jobFigures(view()))
  const lines = createMemo(() => new Map(view().history.map((line) => [line.hash, line])))
  const [over, putOver] = createSignal<Over>()
  /** What a form was opened from and goes back to: whoever fills in blanks fills in the next one. */
  let back: Over | undefined
  const setOver = (next: Over | undefined): void => {
    if (next?.is === 'blanks') back = undefined
    else if (next && over()?.is === 'blanks') back = over()
    const to = next ?? back
    if (!next) back = undefined
    putOver(to)
  }
  const standing = createMemo(() => {
    const byKind = new Map<Kind, HistoryLine[]>()
    for (const line of view().history) {
      if (!line.stands) continue
      const list = byKind.get(line.kind)
      if (list) list.push(line)
      else byKind.set(line.kind, [line])
    }
    return byKind
  })
  const place = createMemo(() => new Map(view().history.map((line, i) => [line.hash, i])))
  const parts = createMemo(() =>
    view().placements.flatMap(({ value }) => value.parts.map(({ part, name }) => ({ id: part, name }))),
  )
  /** The load that an id stands for, also one under which it was logged before it was joined. */
  const loadOf = (id: string): LoadView | undefined =>
    view().loads.find((load) => load.id === id || load.joined.includes(id))
  const idsOf = (id: string): ReadonlySet<string> => new Set([id, ...(loadOf(id)?.joined ?? [])])
  const zone = (): string => view().zone[0]?.value ?? phone.identity()?.zone ?? 'UTC'
  const localNow = (): LocalTime => phone.localNow(zone())
  const { just, isSettling, tapped, logged, forget } = createUndo()
  const keep = <K extends Kind>(
    kind: K,
    { body, occurredAt, source, evidence }: Draft<K>,
    correction?: { corrects: readonly string[]; why: Why },
  ): Promise<string | undefined> =>
    phone.log({ job, kind, body, occurredAt, source, ...(evidence ? { evidence } : {}), ...correction })
  const log: JobHere['log'] = async (kind, draft, correction) => {
    const hash = await keep(kind, draft, correction)
    if (hash === undefined) return false
    // A correction is taken back where it stands; an undo has none of its own.
    if (!correction) logged({ hash, kind, load: loadIn(draft.body) })
    return true
  }
  return {
    job,
    view,
    figures,
    zone,
    name: () => view().name[0]?.value,
    loadIds: () => newestFirst(view().loads),
    load: loadOf,
    loadFigures: (id) => figures().loads.find((load) => load.load === id),
    line: (hash) => lines().get(hash),
    standing: (kinds, load) => {
      const ids = load === undefined ? undefined : idsOf(load)
      return kinds
        .flatMap((kind) => standing().get(kind) ?? [])
        .filter(({ entry }) => {
          const of = 'load' in entry.body ? entry.body.load : undefined
          return of === undefined ? ids === undefined : (ids?.has(of) ?? false)
        })
        .sort((a, b) => (place().get(a.hash) ?? 0) - (place().get(b.hash) ?? 0))
    },
    parts,
    names: (t) => ({
      load: (id) => {
        const load = loadOf(id)
        return load && t('loadNumber', { number: load.ordinal })
      },
      part: (id) => parts().find((part) => part.id === id)?.name,
      person: (id) => phone.jobs.nameOf(id),
    }),
    over,
    setOver,
    localNow,
    log,
    tap: async (kind, body) => {
      const hash = await keep(kind, { body, occurredAt: localNow(), source: 'tap' })
      if (hash === undefined) return false
      tapped({ hash, kind, load: loadIn(body) })
      return true
    },
    just,
    isSettling,
    undo: async (why) => {
      const last = just()
      if (!last) return false
      const draft = { body: {}, occurredAt: localNow(), source: 'tap' } as const
      const done = await log('entry.withdrawn', draft, { corrects: [last.hash], why })
      if (done) forget()
      return done
    },
  }
}

const loadIn = (body: object): string | undefined => (body as { readonly load?: string }).load

const newestFirst = (loads: readonly LoadView[]): string[] => loads.map((load) => load.id).reverse()

export const JobContext = createContext<JobHere>()

export const useJob = (): JobHere => {
  const job = useContext(JobContext)
  if (!job) throw new Error('no job around this component')
  return job
}
