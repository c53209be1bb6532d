import type { LoadModel, Span } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel } from '../said.ts'
import { given, joined, type Names, said, someoneText, unitOf } from './cells.ts'
import { type Column, type Table, tableOf } from './column.ts'

/** One row a load: what stands, and the figures. Each addition, reading and ticket has a table of its own. */
export const loadsTable = ({ job }: RecordModel, names: Names): Table =>
  tableOf('loads', [...facts(names), ...figures, ...evidence(names)], job.loads)

const span = (minutes: Span): string => (minutes.is === 'given' ? joined(minutes.minutes) : minutes.is)
const at = (times: readonly SaidModel[]): string => joined(times.map((time) => time.at))

const facts = (names: Names): readonly Column<LoadModel>[] => [
  ['load', (load) => load.ordinal],
  ['load_id', (load) => load.load],
  ['joined_ids', (load) => load.joined.join(' | ') || 'none'],
  ['ticket_number', ({ tickets }) => joined(tickets.map((t) => given(t.number)))],
  ['truck', ({ tickets }) => joined(tickets.map((t) => given(t.truck)))],
  ['ticket_volume', ({ tickets }) => joined(tickets.map((t) => given(t.yards)))],
  [
    'ticket_volume_unit',
    ({ tickets }) => joined(tickets.map((t) => (t.yards.is === 'given' ? t.yards.unit : t.yards.is))),
  ],
  ['batched_at', ({ tickets }) => joined(tickets.map((t) => given(t.batchedAt)))],
  ['limit_min', ({ tickets }) => joined(tickets.map((t) => given(t.limit)))],
  [
    'limit_to',
    ({ tickets }) => joined(tickets.map((t) => (t.limit.is === 'given' ? t.limit.to : t.limit.is))),
  ],
  ['arrived_at', (load) => at(load.arrived)],
  ['crew_ready_at', (load) => at(load.ready)],
  ['discharge_started_at', (load) => at(load.started)],
  ['discharge_paused_at', (load) => at(load.paused)],
  ['discharge_resumed_at', (load) => at(load.resumed)],
  ['discharge_ended_at', (load) => at(load.ended)],
  ['left_at', (load) => at(load.left)],
  ['waived_by', ({ waived }) => joined(waived.map(({ body }) => someoneText(body.who, names)))],
  ['waived_at', (load) => at(load.waived)],
  [
    'accepted_by',
    ({ accepted }) =>
      joined(accepted.map(({ body }) => (body.who ? someoneText(body.who, names) : 'not-stated'))),
  ],
  ['accepted_at', (load) => at(load.accepted)],
  ['rejected_for', ({ rejected }) => joined(rejected.map(({ body }) => body.reason))],
  ['rejected_at', (load) => at(load.rejected)],
  ['left_over', ({ leftOver }) => joined(leftOver.map(({ body }) => given(body.yards)))],
  ['left_over_unit', ({ leftOver }) => leftOver.map(({ body }) => unitOf(body.yards)).join(' | ')],
  ['left_over_how', ({ leftOver }) => joined(leftOver.map(({ body }) => body.how))],
  ['left_over_to', ({ leftOver }) => joined(leftOver.map(({ body }) => said(body.to)))],
  ['signed_by', ({ signed }) => joined(signed.map(({ body }) => someoneText(body.who, names)))],
  [
    'exception',
    ({ signed }) =>
      joined(signed.map(({ body: { exception: e } }) => (e.is === 'given' ? e.words.text : e.is))),
  ],
  ['curb_line', ({ signed }) => joined(signed.map(({ body }) => said(body.curb)))],
]

const figures: readonly Column<LoadModel>[] = [
  ['batch_to_arrival_min', (load) => span(load.batchToArrival)],
  ['batch_to_start_min', (load) => span(load.batchToStart)],
  ['batch_to_end_min', (load) => span(load.batchToEnd)],
  ['on_site_min', (load) => span(load.onSite)],
  ['limit_verdict', ({ limit }) => limit.verdict],
  ['limit_stated_by', ({ limit }) => joined([...new Set(limit.checks.map((check) => check.statedBy))])],
  ['water', ({ water }) => water.sum.is],
  ['water_gal', ({ water: { sum } }) => (sum.is === 'given' ? sum.gallons : sum.is === 'none' ? '0' : '')],
  ['water_before_gal', ({ water }) => water.stages.before],
  ['water_after_began_gal', ({ water }) => water.stages.afterBegan],
  ['water_in_transit_gal', ({ water }) => water.stages.inTransit],
  ['water_stage_not_said_gal', ({ water }) => water.stages.notSaid],
  [
    'slump',
    ({ slump }) =>
      joined(
        slump.map((s) => (s.slump.is === 'given' ? `${s.slump.text} ${s.slump.unit} ${s.how}` : s.slump.is)),
      ),
  ],
  ['placed_yd3', (load) => load.placedYards ?? 'not-recorded'],
  ['missing', ({ missing }) => missing.join(' | ') || 'none'],
  ['look_again', ({ oddities }) => oddities.join(' | ') || 'none'],
]

const evidence = (names: Names): readonly Column<LoadModel>[] => [
  ['photos', ({ photos }) => photos.map((photo) => photo.photo).join(' | ') || 'none-logged'],
  ['corrected', (load) => correctedCell(load, names)],
]

/** `slump: entry 9, first 8`: each standing answer that is a correction, and the entries that it goes back to. */
const correctedCell = (load: LoadModel, { countOf, firstsOf }: Names): string => {
  const answers: readonly (readonly [string, readonly SaidModel[]])[] = [
    ['ticket', load.tickets],
    ['arrived_at', load.arrived],
    ['crew_ready_at', load.ready],
    ['discharge_started_at', load.started],
    ['discharge_paused_at', load.paused],
    ['discharge_resumed_at', load.resumed],
    ['discharge_ended_at', load.ended],
    ['left_at', load.left],
    ['waived', load.waived],
    ['accepted', load.accepted],
    ['rejected', load.rejected],
    ['signed', load.signed],
    ['left_over', load.leftOver],
    ['placed', load.placed],
    ['water', load.water.answers],
    ['admixtures', load.admixtures],
    ['slump', load.slump],
    ['slump_flow', load.slumpFlow],
    ['air', load.air],
    ['temperatures', load.temperatures],
    ['density', load.density],
    ['cylinders', load.cylinders],
    ['strength', load.strength],
    ['photos', load.photos],
  ]
  const texts = answers.flatMap(([fact, all]) =>
    all.flatMap(({ entry }) => {
      const firsts = firstsOf(entry).map((hash) => countOf(hash) || hash)
      return firsts.length === 0 ? [] : [`${fact}: entry ${countOf(entry)}, first ${firsts.join(', ')}`]
    }),
  )
  return texts.join(' | ') || 'none'
}
