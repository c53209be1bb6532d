import { createMemo } from 'solid-js'
import { mayMakeOn, standingOn } from '../../api/domain/access/access.ts'
import { ACTIONS, type Action } from '../../api/domain/access/actions.ts'
import { foldMembers, type Members } from '../../api/domain/access/members.ts'
import { foldQuarantine, type Quarantine } from '../../api/domain/access/quarantine.ts'
import { isUnread } from '../../api/domain/entry/read.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { foldJob } from '../../api/domain/job/fold.ts'
import { inOrder, type KnownEntry, knownEntries } from '../../api/domain/job/standing.ts'
import type { JobView } from '../../api/domain/job/view.ts'
import type { Snapshot } from './snapshot.ts'

export type JobsState = {
  /** Ids of all jobs, the one that something happened on last first. */
  readonly jobs: () => readonly string[]
  readonly view: (job: string) => JobView
  readonly members: () => Members
  /** What withdrawn devices sent, and what was decided on it. */
  readonly quarantine: () => Quarantine
  /** The company's own thread, as this phone has it. */
  readonly companyEntries: () => readonly KnownEntry[]
  readonly nameOf: (person: string | undefined) => string | undefined
  readonly mayMake: (kind: Kind) => boolean
  readonly mayDo: (action: Action) => boolean
  /** Entries of a later release: kept, not yet read. */
  readonly unread: () => number
}

/** `person` is whoever logs now: the phone's own person, or who was picked on a shared one. */
export const createJobs = (
  snapshot: () => Snapshot | undefined,
  person: () => string | undefined,
): JobsState => {
  const company = () => snapshot()?.identity?.company
  const known = createMemo(() => knownEntries(snapshot()?.logged ?? []))
  const byJob = createMemo(() => {
    const jobs = new Map<string, KnownEntry[]>()
    for (const e of known()) {
      const list = jobs.get(e.entry.job)
      if (list) list.push(e)
      else jobs.set(e.entry.job, [e])
    }
    return jobs
  })
  const jobs = createMemo(() => {
    const latest = [...byJob()]
      .filter(([job]) => job !== company())
      .map(([job, entries]) => ({ job, last: entries.reduce((a, b) => (inOrder(a, b) < 0 ? b : a)) }))
    return latest.sort((a, b) => inOrder(b.last, a.last)).map(({ job }) => job)
  })
  const companyEntries = () => byJob().get(company() ?? '') ?? []
  // In the order of the log where it is known: later entries hold.
  const members = createMemo(() => foldMembers(companyEntries()))
  const quarantine = createMemo(() => foldQuarantine(companyEntries()))
  const use = () => snapshot()?.identity?.use ?? 'phone'
  // Before anybody is picked a shared phone offers what a crew member may do: the tap asks for the name.
  const role = () => {
    const named = person()
    return named === undefined && use() === 'shared' ? 'crew' : members().people.get(named ?? '')?.role
  }
  return {
    jobs,
    view: (job) => foldJob(job, byJob().get(job) ?? []),
    members,
    quarantine,
    companyEntries,
    nameOf: (person) => (person === undefined ? undefined : members().people.get(person)?.name),
    mayMake: (kind) => {
      const mine = role()
      return mine !== undefined && mayMakeOn(use(), mine, kind)
    },
    mayDo: (action) => {
      const mine = role()
      return mine !== undefined && ACTIONS[action].includes(standingOn(use(), mine))
    },
    unread: () => (snapshot()?.logged ?? []).filter(isUnread).length,
  }
}
