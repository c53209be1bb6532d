import { createContext, createMemo, createSignal, useContext } from 'solid-js'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import { type JobFigures, jobFigures, type LoadFigures } from '../../api/domain/job/figures.ts'
import type { HistoryLine, JobView, LoadView } from '../../api/domain/job/view.ts'
import type { LocalTime } from '../../api/domain/time.ts'
import type { Draft } from './draft.ts'
import type { Phone } from './phone.ts'

/** What lies over the job's screen at the moment. */
export type Over =
  | { readonly is: 'new'; readonly kind: Kind; readonly load?: string }
  | { readonly is: 'entry'; readonly hash: string }
  /** `corrects` holds every rival answer where a conflict is settled. */
  | { readonly is: 'correct'; readonly hash: string; readonly corrects: readonly string[] }
  | { readonly is: 'take-back'; readonly hash: string }
  | { readonly is: 'slip' }

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
}

export const createJobHere = (phone: Phone, job: string): JobHere => {
  const view = createMemo(() => phone.jobs.view(job))
  const figures = createMemo(() => jobFigures(view()))
  const lines = createMemo(() => new Map(view().history.map((line) => [line.hash, line])))
  const [over, setOver] = createSignal<Over>()
  const zone = (): string => view().zone[0]?.value ?? phone.identity()?.zone ?? 'UTC'
  const localNow = (): LocalTime => phone.localNow(zone())
  const log: JobHere['log'] = (kind, { body, occurredAt, source, evidence }, correction) =>
    phone.log({ job, kind, body, occurredAt, source, ...(evidence ? { evidence } : {}), ...correction })
  return {
    job,
    view,
    figures,
    zone,
    name: () => view().name[0]?.value,
    loadIds: () => newestFirst(view().loads),
    load: (id) => view().loads.find((load) => load.id === id),
    loadFigures: (id) => figures().loads.find((load) => load.load === id),
    line: (hash) => lines().get(hash),
    over,
    setOver,
    localNow,
    log,
    tap: (kind, body) => log(kind, { body, occurredAt: localNow(), source: 'tap' }),
  }
}

const newestFirst = (loads: readonly LoadView[]): string[] => loads.map((load) => load.id).reverse()

export const JobContext = createContext<JobHere>()

export const useJob = (): JobHere => {
  const job = useContext(JobContext)
  if (!job) throw new Error('no job around this component')
  return job
}
