import type { Entry } from '../../domain/entry/envelope.ts'
import { isUnread } from '../../domain/entry/read.ts'
import type { ReadLeaf } from './collect.ts'

/**
 * What a record quotes of the company's own affairs: the founding, and whatever concerns a person or a device that the
 * job's thread names, also as who asked, added, took or signed (added, named, changed, enrolled, withdrawn, refused), and again whoever made those entries, until
 * nobody new turns up; and the entries of the record's time stamps, by their hashes. In the order of the log.
 */
export const quoteCompany = (
  company: readonly ReadLeaf[],
  thread: readonly ReadLeaf[],
  stamps: ReadonlySet<string>,
): ReadLeaf[] => {
  const named = new Set<string>()
  const name = (entry: Entry): void => {
    named.add(entry.device)
    if (entry.by.known !== 'server') named.add(entry.by.person)
    for (const person of peopleIn(entry.body)) named.add(person)
  }
  for (const leaf of thread) {
    const entry = entryOf(leaf)
    if (entry) name(entry)
    else named.add(leaf.device)
  }
  const quoted = new Set<ReadLeaf>()
  for (let before = -1; before < quoted.size; ) {
    before = quoted.size
    for (const leaf of company) {
      const entry = entryOf(leaf)
      if (!entry || quoted.has(leaf) || !concerns(entry, named)) continue
      quoted.add(leaf)
      name(entry)
      for (const id of subjectsOf(entry)) named.add(id)
    }
  }
  return company.filter((leaf) => quoted.has(leaf) || stamps.has(leaf.entryHash))
}

/** People of the company that a body names by id, wherever in it: who asked for water, who took a reading. */
const peopleIn = (value: unknown): string[] => {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([name, one]) =>
    name === 'person' && typeof one === 'string' ? [one] : peopleIn(one),
  )
}

const entryOf = ({ read }: ReadLeaf): Entry | undefined => (read && !isUnread(read) ? read.entry : undefined)

const subjectsOf = ({ body }: Entry): string[] => [
  ...('person' in body && body.person !== undefined ? [body.person] : []),
  ...('device' in body ? [body.device] : []),
]

const concerns = (entry: Entry, named: ReadonlySet<string>): boolean => {
  if (entry.kind === 'company.founded') return true
  // Every device of a person who appears would be too many: a device counts only if it appears itself.
  if (entry.kind === 'device.enrolled') return named.has(entry.body.device)
  return subjectsOf(entry).some((id) => named.has(id))
}
