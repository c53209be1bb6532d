import type { Members } from '../access/members.ts'
import { jobFigures } from '../job/figures.ts'
import { foldJob } from '../job/fold.ts'
import type { LoggedEntry } from '../job/standing.ts'
import type { Quantity } from '../units.ts'
import { showNumber } from '../units.ts'
import { type ChangeModel, changesOf, type EntryModel, historyOf } from './history.ts'
import {
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
  /** Sum over loads with one stated volume; `loadsWithout` are not in it. */
  readonly ticketed: { readonly yards: string; readonly loadsWithout: number }
  /** Ticketed less ordered. */
  readonly difference: YardsModel
  readonly loads: readonly LoadModel[]
  readonly photos: readonly PhotoModel[]
  readonly remarks: readonly RemarkModel[]
  readonly history: readonly EntryModel[]
  readonly changes: readonly ChangeModel[]
  /** Entries of a later release: kept, not read. */
  readonly unread: number
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
    ticketed: { yards: showNumber(figures.ticketedYards), loadsWithout: figures.loadsWithoutYards },
    difference: yardsModel(figures.difference && showNumber(figures.difference)),
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
