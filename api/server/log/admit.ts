import { mayMakeEntry, mayMakeOn } from '../../domain/access/access.ts'
import type { Device, Members } from '../../domain/access/members.ts'
import type { HashedEntry } from '../../domain/entry/read.ts'
import { KINDS } from '../../domain/entry/registry.ts'
import { fail, ok, type Result } from '../../domain/result.ts'

export type AdmitProblem =
  | 'entry-device'
  | 'entry-person'
  | 'entry-thread'
  | 'kind-of-server'
  | 'role-may-not'

/**
 * Whether an entry may come from this device, by the company's affairs as they stand now. Times are never a reason: an
 * impossible order of times is evidence, flagged and kept.
 */
export const admit = (
  { entry }: HashedEntry,
  from: Device,
  company: string,
  members: Members,
): Result<undefined, AdmitProblem> => {
  if (entry.device !== from.device) return fail('entry-device', '/device')
  const spec = KINDS[entry.kind]
  if (spec.maker === 'server' || entry.by.known === 'server') return fail('kind-of-server', '/kind')
  // Whose hands a device is in decides how its maker can be known (SPEC L55).
  const shared = from.use === 'shared'
  if (entry.by.known !== (shared ? 'picked' : 'own-device')) return fail('entry-person', '/by/known')
  if (!shared && entry.by.person !== from.person) return fail('entry-person', '/by/person')
  if ((spec.thread === 'company') !== (entry.job === company)) return fail('entry-thread', '/job')
  const person = members.people.get(entry.by.person)
  if (!person) return fail('entry-person', '/by/person')
  const may = mayMakeOn(from.use, person.role, entry.kind) && mayMakeEntry(person.role, entry)
  return may ? ok(undefined) : fail('role-may-not', '/kind')
}
