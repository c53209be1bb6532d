import type { Members } from '../access/members.ts'
import type { By, Entry } from '../entry/envelope.ts'
import { isLate, recordingDelayMinutes } from '../job/standing.ts'
import type { LocalTime } from '../time.ts'

/** A model holds strings and integers only, so that its canonical JSON has one reading everywhere. */
export type YesNo = 'yes' | 'no'
export const yesNo = (is: boolean): YesNo => (is ? 'yes' : 'no')

/** Who said it, and how that was known. `name` is absent where no quoted entry of the company names the person. */
export type Who = { readonly known: By['known']; readonly person?: string; readonly name?: string }

export const whoOf = (by: By, members: Members): Who => {
  if (by.known === 'server') return { known: by.known }
  const name = members.people.get(by.person)?.name
  return { known: by.known, person: by.person, ...(name === undefined ? {} : { name }) }
}

/** Which entry says it (hex hash), when it happened as claimed, by whom, and how long after that it was recorded. */
export type SaidModel = {
  readonly entry: string
  readonly at: LocalTime
  readonly by: Who
  readonly late: YesNo
  /** Whole minutes from occurring to recording; negative where it was recorded beforehand. */
  readonly delayMinutes: number
}

export const saidOf = (hash: string, entry: Entry, members: Members): SaidModel => ({
  entry: hash,
  at: entry.occurredAt,
  by: whoOf(entry.by, members),
  late: yesNo(isLate(entry)),
  delayMinutes: recordingDelayMinutes(entry),
})
