import type { LogStore } from '../../db/log-store/log-store.ts'
import { isUnread, readEntry } from '../domain/entry/read.ts'
import { foldJob } from '../domain/job/fold.ts'
import { type RecordRequest, type RequestProblem, readRequest } from '../domain/record/request.ts'
import type { Problem } from '../domain/result.ts'
import { sha256 } from '../server/senses.ts'
import type { FoundJob } from './find-job.ts'

/** As it was typed: a load by its number, ticket or id, a placement by its name or id. */
export type TypedScope = {
  readonly placement?: string | undefined
  readonly load?: string | undefined
  readonly from?: string | undefined
  readonly to?: string | undefined
  readonly withhold?: readonly string[] | undefined
}

/** What a record is to be of, or a sentence that says what to type instead. */
export const findScope = async (
  store: LogStore,
  { company, job, name }: FoundJob,
  typed: TypedScope,
): Promise<RecordRequest | string> => {
  const view = foldJob(job, await entriesOf(store, company, job))
  const loads = view.loads.filter(
    ({ id, joined, ordinal, ticket }) =>
      id === typed.load ||
      joined.includes(typed.load ?? '') ||
      String(ordinal) === typed.load ||
      ticket.some(({ value: { number } }) => number.is === 'given' && number.text === typed.load),
  )
  if (typed.load !== undefined && loads.length !== 1)
    return `${name} has ${loads.length === 0 ? 'no load' : 'several loads'} ${typed.load}. Its loads: ${view.loads.map(({ ordinal, id }) => `${ordinal} (${id})`).join(', ') || 'none'}.`
  const placements = view.placements.filter(
    ({ value }) =>
      value.placement === typed.placement || value.name.toLowerCase() === typed.placement?.toLowerCase(),
  )
  const placementIds = [...new Set(placements.map(({ value }) => value.placement))]
  if (typed.placement !== undefined && placementIds.length !== 1)
    return `${name} has ${placementIds.length === 0 ? 'no placement' : 'several placements'} ${typed.placement}. Its placements: ${view.placements.map(({ value }) => `${value.name} (${value.placement})`).join(', ') || 'none'}.`
  const read = readRequest({ ...typed, load: loads[0]?.id, placement: placementIds[0] })
  return read.ok ? read.value : sentenceOf(read.problem)
}

const sentenceOf = ({ code, at }: Problem<RequestProblem>): string => {
  switch (code) {
    case 'request-id':
      return `--${at} is an id.`
    case 'request-day':
      return '--from and --to are days such as 2026-04-21, the first of them not later than the second.'
    case 'request-kind':
      return `Nothing is called ${at}: --withhold takes "personal" (customer, address) or a kind of entry, such as remark.made.`
    case 'request-kind-needed':
      return `${at} can’t be withheld: without it the other entries would be read wrongly.`
  }
}

const entriesOf = async (store: LogStore, company: string, job: string) =>
  (await store.thread(company, job)).flatMap(({ bytes }) => {
    const read = bytes && readEntry(bytes, sha256)
    return read?.ok && !isUnread(read.value) ? [read.value] : []
  })
