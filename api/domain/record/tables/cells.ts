import { firstsOf } from '../history.ts'
import type { RecordModel } from '../model.ts'
import type { Who } from '../said.ts'

/** How one record's tables name things: entries by their count, loads by their ordinal. */
export type Names = {
  readonly countOf: (hash: string) => number | ''
  readonly ordinalOf: (load: string | undefined) => number | ''
  /** The id under which a load's figures stand, also for one that was joined to it. */
  readonly loadOf: (load: string | undefined) => string
  readonly firstsOf: (hash: string) => readonly string[]
  readonly personOf: (id: string) => string
  readonly partOf: (id: string) => string
}

export const namesOf = (model: RecordModel): Names => {
  const counts = new Map(model.thread.map((slot) => [slot.entry, slot.count]))
  const loads = new Map(
    model.job.loads.flatMap((load) => [load.load, ...load.joined].map((id) => [id, load] as const)),
  )
  const people = new Map(model.people.map(({ person, name }) => [person, name]))
  const parts = new Map(model.job.parts.map(({ part, name }) => [part, name]))
  return {
    countOf: (hash) => counts.get(hash) ?? '',
    ordinalOf: (load) => (load === undefined ? '' : (loads.get(load)?.ordinal ?? '')),
    loadOf: (load) => (load === undefined ? '' : (loads.get(load)?.load ?? load)),
    firstsOf: firstsOf(model.job.history),
    personOf: (id) => people.get(id) ?? id,
    partOf: (id) => parts.get(id) ?? id,
  }
}

/** Several standing answers share a cell, parted by a bar. */
export const joined = (all: readonly (string | number)[]): string => all.join(' | ') || 'not-recorded'

type Tagged = { readonly is: string; readonly text?: string; readonly at?: string; readonly unit?: string }

/** What was given, else the code of what was said instead; of what nobody said, not-recorded. */
export const given = (answer: Tagged | undefined): string =>
  answer === undefined ? 'not-recorded' : (answer.text ?? answer.at ?? answer.is)

/** The unit of what was given; empty where nothing was. */
export const unitOf = (answer: Tagged | undefined): string =>
  answer?.is === 'given' ? (answer.unit ?? '') : ''

/** A code or words that may be absent. */
export const said = (value: string | undefined): string => value ?? 'not-recorded'

export const whoText = (by: Who): string => by.name ?? by.person ?? by.known

/** A person of the company by name, or anybody else by what they are called. */
export const someoneText = (
  someone: { readonly person: string } | { readonly called: string } | undefined,
  names: Names,
): string => {
  if (someone === undefined) return 'not-recorded'
  return 'person' in someone ? names.personOf(someone.person) : someone.called
}
