import type { Members } from '../access/members.ts'
import type { BodyOf, Kind } from '../entry/registry.ts'
import type { EdgeGap } from '../job/edge-gaps.ts'
import { type JobOddityKey, jobFigures } from '../job/figures.ts'
import { jobFindings } from '../job/findings/findings.ts'
import { foldJob } from '../job/fold.ts'
import type { JobGap } from '../job/missing.ts'
import type { LoggedEntry } from '../job/standing.ts'
import type { JobView, Said } from '../job/view.ts'
import { leftOverOf, partYards } from '../job/volume.ts'
import type { Quantity } from '../units.ts'
import { showNumber, sum } from '../units.ts'
import { type FindingModel, findingModel } from './finding-model.ts'
import { type ChangeModel, changesOf, type EntryModel, historyOf } from './history.ts'
import {
  type BodyModel,
  bodyModels,
  type LoadModel,
  loadModel,
  type PhotoModel,
  photoModel,
  type RemarkModel,
  remarkModel,
  type Sayings,
} from './load-model.ts'
import { type SaidModel, saidOf } from './said.ts'

/** Cubic yards as a computed figure: at most two decimals. */
export type YardsModel = { readonly is: 'given'; readonly yards: string } | { readonly is: 'not-recorded' }

/**
 * A job in strings and integers: what `GET /api/jobs/:job` answers, what a phone shows from its own copy, and the part
 * of record.json that the entries alone decide. Codes, not words.
 */
export type JobModel = {
  readonly job: string
  readonly name: readonly (SaidModel & { readonly text: string })[]
  readonly zone: readonly (SaidModel & { readonly text: string })[]
  readonly ordered: {
    readonly sum: YardsModel
    readonly orders: readonly (SaidModel & { readonly yards: Quantity })[]
  }
  /** Sum over loads with one stated volume; `loadsWithout` are not in it, nor what loads that were sent back had. */
  readonly ticketed: { readonly yards: string; readonly loadsWithout: number; readonly sentBack: string }
  /** Ticketed less ordered. */
  readonly difference: YardsModel
  /** The planned parts, with what each takes as formed: computed, absent where a side is no length. */
  readonly parts: readonly PartModel[]
  readonly formed: YardsModel
  /** Planned parts that are not in `formed`, since several sizes stand. */
  readonly partsWithout: number
  /** Ticketed less left over, over the loads of which that is known; `loadsWithout` are not in it. */
  readonly placed: { readonly yards: string; readonly loadsWithout: number }
  /** Sum over the loads of which somebody said what was left; `loadsWithout` are not in it. */
  readonly leftOver: { readonly yards: string; readonly loadsWithout: number }
  /** Placed above formed, in per cent of formed with at most one decimal. */
  readonly overFormed: { readonly is: 'given'; readonly percent: string } | { readonly is: 'not-recorded' }
  /** From the end of one load's discharge to the start of the next. */
  readonly edgeGaps: readonly EdgeGap[]
  /** Beside limits of published texts, by the editions that the job chose, else the usual ones. */
  readonly findings: readonly FindingModel[]
  readonly gaps: readonly JobGap[]
  readonly oddities: readonly JobOddityKey[]
  readonly said: JobSayings
  readonly loads: readonly LoadModel[]
  readonly photos: readonly PhotoModel[]
  readonly remarks: readonly RemarkModel[]
  readonly history: readonly EntryModel[]
  readonly changes: readonly ChangeModel[]
  /** Entries of a later release: kept, not read. */
  readonly unread: number
}

export type PartModel = {
  readonly placement: string
  readonly part: string
  readonly name: string
  readonly yards?: string
}

type Bodies<K extends Kind> = readonly BodyModel<BodyOf<K>>[]

/** What was said of the whole job: bodies as they stand. */
export type JobSayings = {
  readonly customer: Bodies<'customer.named'>
  readonly address: Bodies<'site.addressed'>
  readonly placements: Bodies<'placement.planned'>
  readonly mix: Bodies<'mix.ordered'>
  readonly editions: Bodies<'editions.chosen'>
  readonly held: Bodies<'concrete.held'>
  readonly balance: Bodies<'balance.ordered'>
  readonly promised: Bodies<'delivery.promised'>
  readonly calls: Bodies<'dispatch.called'>
  readonly checks: Bodies<'base.checked'>
  readonly depths: Bodies<'depth.measured'>
  readonly weather: Bodies<'weather.observed'>
  readonly temperatures: Bodies<'temperature.measured'>
  readonly finish: Bodies<'finish.done'>
  readonly cures: Bodies<'cure.applied'>
  readonly covers: Bodies<'cover.placed'>
  readonly saws: Bodies<'joint.sawn'>
  readonly served: Bodies<'slab.served'>
  readonly rain: Bodies<'rain.fell'>
  readonly joins: Bodies<'loads.joined'>
}

/** A function of the set of entries (and of what is known of people): the same on phone, server and checker. */
export const jobModel = (input: {
  readonly job: string
  readonly entries: readonly LoggedEntry[]
  readonly members: Members
}): JobModel => {
  const { job, entries, members } = input
  const view = foldJob(job, entries)
  const figures = jobFigures(view)
  const byHash = new Map(view.history.map((line) => [line.hash, line.entry]))
  const sayings: Sayings = {
    said: (hash) => saidOf(hash, byHash.get(hash)!, members),
    langOf: (hash) => {
      const entry = byHash.get(hash)
      return entry?.kind === 'remark.made' ? entry.body.remark.lang : ''
    },
  }
  const history = historyOf(view.history, members)
  const figured = new Map(figures.loads.map((load) => [load.load, load]))
  return {
    job,
    name: view.name.map((s) => ({ ...sayings.said(s.hash), text: s.value })),
    zone: view.zone.map((s) => ({ ...sayings.said(s.hash), text: s.value })),
    ordered: {
      sum: yardsModel(figures.orderedYards && showNumber(figures.orderedYards)),
      orders: view.ordered.map(({ hash, value }) => ({
        ...sayings.said(hash),
        yards: { text: value.text, unit: value.unit },
      })),
    },
    ticketed: {
      yards: showNumber(figures.ticketedYards),
      loadsWithout: figures.loadsWithoutYards,
      sentBack: showNumber(figures.sentBackYards),
    },
    difference: yardsModel(figures.difference && showNumber(figures.difference)),
    parts: partModels(view),
    formed: yardsModel(figures.formedYards && showNumber(figures.formedYards)),
    partsWithout: figures.partsWithoutYards,
    placed: { yards: showNumber(figures.placedYards), loadsWithout: figures.loadsWithoutPlaced },
    leftOver: leftOverModel(view),
    overFormed: figures.overFormed
      ? { is: 'given', percent: showNumber(figures.overFormed, 1) }
      : { is: 'not-recorded' },
    edgeGaps: figures.edgeGaps,
    findings: jobFindings(view).map(findingModel),
    gaps: figures.gaps,
    oddities: figures.oddities,
    said: jobSayings(view, sayings),
    loads: view.loads.map((load) => loadModel(load, figured.get(load.id)!, sayings)),
    photos: view.photos.map((photo) => photoModel(photo, sayings)),
    remarks: view.remarks.map((remark) => remarkModel(remark, sayings)),
    history,
    changes: changesOf(history),
    unread: view.unread,
  }
}

const yardsModel = (yards: string | undefined): YardsModel =>
  yards === undefined ? { is: 'not-recorded' } : { is: 'given', yards }

const leftOverModel = ({ loads }: JobView): JobModel['leftOver'] => {
  const known = loads.flatMap((load) => leftOverOf(load) ?? [])
  return { yards: showNumber(sum(known)), loadsWithout: loads.length - known.length }
}

const partModels = (view: JobView): PartModel[] =>
  view.placements.flatMap(({ value: { placement, parts } }) =>
    parts.map((part) => {
      const yards = partYards(part)
      return { placement, part: part.part, name: part.name, ...(yards ? { yards: showNumber(yards) } : {}) }
    }),
  )

const jobSayings = (view: JobView, sayings: Sayings): JobSayings => {
  const bodies = <T>(all: readonly Said<T>[]) => bodyModels(all, sayings)
  return {
    customer: bodies(view.customer),
    address: bodies(view.address),
    placements: bodies(view.placements),
    mix: bodies(view.mix),
    editions: bodies(view.editions),
    held: bodies(view.held),
    balance: bodies(view.balance),
    promised: bodies(view.promised),
    calls: bodies(view.calls),
    checks: bodies(view.checks),
    depths: bodies(view.depths),
    weather: bodies(view.weather),
    temperatures: bodies(view.temperatures),
    finish: bodies(view.finish),
    cures: bodies(view.cures),
    covers: bodies(view.covers),
    saws: bodies(view.saws),
    served: bodies(view.served),
    rain: bodies(view.rain),
    joins: bodies(view.joins),
  }
}
