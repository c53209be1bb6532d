import type * as z from 'zod/mini'
import type { KindSpec } from './kind.ts'
import { admixtureAdded } from './kinds/admixture-added.ts'
import { airMeasured } from './kinds/air-measured.ts'
import { balanceOrdered } from './kinds/balance-ordered.ts'
import { baseChecked } from './kinds/base-checked.ts'
import { checkpointStamped } from './kinds/checkpoint-stamped.ts'
import { companyFounded } from './kinds/company-founded.ts'
import { concreteHeld } from './kinds/concrete-held.ts'
import { concreteLeft } from './kinds/concrete-left.ts'
import { concreteOrdered } from './kinds/concrete-ordered.ts'
import { coverPlaced } from './kinds/cover-placed.ts'
import { crewReady } from './kinds/crew-ready.ts'
import { cureApplied } from './kinds/cure-applied.ts'
import { customerNamed } from './kinds/customer-named.ts'
import { cylindersMade } from './kinds/cylinders-made.ts'
import { deliveryPromised } from './kinds/delivery-promised.ts'
import { densityMeasured } from './kinds/density-measured.ts'
import { depthMeasured } from './kinds/depth-measured.ts'
import { deviceEnrolled } from './kinds/device-enrolled.ts'
import { deviceWithdrawn } from './kinds/device-withdrawn.ts'
import { dischargeEnded } from './kinds/discharge-ended.ts'
import { dischargePaused } from './kinds/discharge-paused.ts'
import { dischargeResumed } from './kinds/discharge-resumed.ts'
import { dischargeStarted } from './kinds/discharge-started.ts'
import { dispatchCalled } from './kinds/dispatch-called.ts'
import { editionsChosen } from './kinds/editions-chosen.ts'
import { entryRefused } from './kinds/entry-refused.ts'
import { entryWithdrawn } from './kinds/entry-withdrawn.ts'
import { finishDone } from './kinds/finish-done.ts'
import { flowMeasured } from './kinds/flow-measured.ts'
import { jobOpened } from './kinds/job-opened.ts'
import { jointSawn } from './kinds/joint-sawn.ts'
import { limitWaived } from './kinds/limit-waived.ts'
import { loadAccepted } from './kinds/load-accepted.ts'
import { loadArrived } from './kinds/load-arrived.ts'
import { loadLeft } from './kinds/load-left.ts'
import { loadPlaced } from './kinds/load-placed.ts'
import { loadRejected } from './kinds/load-rejected.ts'
import { loadsJoined } from './kinds/loads-joined.ts'
import { mixOrdered } from './kinds/mix-ordered.ts'
import { ownerNamed } from './kinds/owner-named.ts'
import { personAdded } from './kinds/person-added.ts'
import { photoReceived } from './kinds/photo-received.ts'
import { photoTaken } from './kinds/photo-taken.ts'
import { placementPlanned } from './kinds/placement-planned.ts'
import { pushDecided } from './kinds/push-decided.ts'
import { pushQuarantined } from './kinds/push-quarantined.ts'
import { rainFell } from './kinds/rain-fell.ts'
import { remarkMade } from './kinds/remark-made.ts'
import { roleChanged } from './kinds/role-changed.ts'
import { siteAddressed } from './kinds/site-addressed.ts'
import { slabServed } from './kinds/slab-served.ts'
import { slumpMeasured } from './kinds/slump-measured.ts'
import { strengthReported } from './kinds/strength-reported.ts'
import { temperatureMeasured } from './kinds/temperature-measured.ts'
import { ticketRecorded } from './kinds/ticket-recorded.ts'
import { ticketSigned } from './kinds/ticket-signed.ts'
import { waterAdded } from './kinds/water-added.ts'
import { weatherObserved } from './kinds/weather-observed.ts'

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
  // Release 2
  'admixture.added': admixtureAdded,
  'air.measured': airMeasured,
  'balance.ordered': balanceOrdered,
  'base.checked': baseChecked,
  'checkpoint.stamped': checkpointStamped,
  'concrete.held': concreteHeld,
  'concrete.left': concreteLeft,
  'cover.placed': coverPlaced,
  'crew.ready': crewReady,
  'cure.applied': cureApplied,
  'customer.named': customerNamed,
  'cylinders.made': cylindersMade,
  'delivery.promised': deliveryPromised,
  'density.measured': densityMeasured,
  'depth.measured': depthMeasured,
  'discharge.paused': dischargePaused,
  'discharge.resumed': dischargeResumed,
  'dispatch.called': dispatchCalled,
  'editions.chosen': editionsChosen,
  'finish.done': finishDone,
  'joint.sawn': jointSawn,
  'limit.waived': limitWaived,
  'load.accepted': loadAccepted,
  'load.placed': loadPlaced,
  'load.rejected': loadRejected,
  'loads.joined': loadsJoined,
  'mix.ordered': mixOrdered,
  'placement.planned': placementPlanned,
  'push.decided': pushDecided,
  'push.quarantined': pushQuarantined,
  'rain.fell': rainFell,
  'site.addressed': siteAddressed,
  'slab.served': slabServed,
  'flow.measured': flowMeasured,
  'strength.reported': strengthReported,
  'temperature.measured': temperatureMeasured,
  'ticket.signed': ticketSigned,
  'weather.observed': weatherObserved,
} as const satisfies { readonly [kind: string]: KindSpec }

export type Kind = keyof typeof KINDS
export type BodyOf<K extends Kind> = z.infer<(typeof KINDS)[K]['today']>

/** The greatest `v` that this program reads. Entries with a greater one are kept unread (L9). */
export const VOCABULARY = 2

export const isKind = (kind: string): kind is Kind => Object.hasOwn(KINDS, kind)
