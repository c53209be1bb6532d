import type * as z from 'zod/mini'
import type { KindSpec } from './kind.ts'
import { companyFounded } from './kinds/company-founded.ts'
import { concreteOrdered } from './kinds/concrete-ordered.ts'
import { deviceEnrolled } from './kinds/device-enrolled.ts'
import { deviceWithdrawn } from './kinds/device-withdrawn.ts'
import { dischargeEnded } from './kinds/discharge-ended.ts'
import { dischargeStarted } from './kinds/discharge-started.ts'
import { entryRefused } from './kinds/entry-refused.ts'
import { entryWithdrawn } from './kinds/entry-withdrawn.ts'
import { jobOpened } from './kinds/job-opened.ts'
import { loadArrived } from './kinds/load-arrived.ts'
import { loadLeft } from './kinds/load-left.ts'
import { ownerNamed } from './kinds/owner-named.ts'
import { personAdded } from './kinds/person-added.ts'
import { photoReceived } from './kinds/photo-received.ts'
import { photoTaken } from './kinds/photo-taken.ts'
import { remarkMade } from './kinds/remark-made.ts'
import { roleChanged } from './kinds/role-changed.ts'
import { slumpMeasured } from './kinds/slump-measured.ts'
import { ticketRecorded } from './kinds/ticket-recorded.ts'
import { waterAdded } from './kinds/water-added.ts'

/** Every kind of entry there is. Adding one here makes the compiler ask for its fold, its words and its access. */
export const KINDS = {
  'company.founded': companyFounded,
  'owner.named': ownerNamed,
  'person.added': personAdded,
  'role.changed': roleChanged,
  'device.enrolled': deviceEnrolled,
  'device.withdrawn': deviceWithdrawn,
  'entry.refused': entryRefused,
  'job.opened': jobOpened,
  'concrete.ordered': concreteOrdered,
  'ticket.recorded': ticketRecorded,
  'load.arrived': loadArrived,
  'discharge.started': dischargeStarted,
  'discharge.ended': dischargeEnded,
  'load.left': loadLeft,
  'water.added': waterAdded,
  'slump.measured': slumpMeasured,
  'photo.taken': photoTaken,
  'photo.received': photoReceived,
  'remark.made': remarkMade,
  'entry.withdrawn': entryWithdrawn,
} as const satisfies { readonly [kind: string]: KindSpec }

export type Kind = keyof typeof KINDS
export type BodyOf<K extends Kind> = z.infer<(typeof KINDS)[K]['today']>

/** The greatest `v` that this program reads. Entries with a greater one are kept unread (L9). */
export const VOCABULARY = 1

export const isKind = (kind: string): kind is Kind => Object.hasOwn(KINDS, kind)
