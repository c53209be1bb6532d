import type { Entry } from '../entry/envelope.ts'
import { KINDS, type Kind } from '../entry/registry.ts'
import { ROLES, type Role } from '../entry/role.ts'
import type { Device } from './members.ts'

/** Who asks: nobody known, a person with a role on an enrolled device, or a device that was withdrawn. */
export type Standing = 'nobody' | Role | 'withdrawn'

const everyone = ROLES
const leads = ['owner', 'foreman'] as const satisfies readonly Role[]
const owner = ['owner'] as const satisfies readonly Role[]
const logs = ['owner', 'foreman', 'crew', 'office'] as const satisfies readonly Role[]

/** Who may make which kind of entry. `server` kinds are refused from any phone. */
export const MAY_MAKE: { readonly [K in Kind]: readonly Role[] | 'server' } = {
  'company.founded': 'server',
  'owner.named': 'server',
  'person.added': leads,
  'role.changed': owner,
  'device.enrolled': 'server',
  'device.withdrawn': leads,
  'entry.refused': 'server',
  'job.opened': everyone,
  'concrete.ordered': logs,
  'ticket.recorded': logs,
  'load.arrived': logs,
  'discharge.started': logs,
  'discharge.ended': logs,
  'load.left': logs,
  'water.added': logs,
  'slump.measured': logs,
  'photo.taken': logs,
  'photo.received': 'server',
  'remark.made': everyone,
  'entry.withdrawn': everyone,
  'admixture.added': logs,
  'air.measured': logs,
  'balance.ordered': logs,
  'base.checked': logs,
  'checkpoint.stamped': 'server',
  'concrete.held': leads,
  'concrete.left': logs,
  'cover.placed': logs,
  'crew.ready': logs,
  'cure.applied': logs,
  'customer.named': leads,
  'cylinders.made': logs,
  'delivery.promised': logs,
  'density.measured': logs,
  'depth.measured': logs,
  'discharge.paused': logs,
  'discharge.resumed': logs,
  'dispatch.called': logs,
  'editions.chosen': leads,
  'finish.done': logs,
  'joint.sawn': logs,
  'limit.waived': logs,
  'load.accepted': logs,
  'load.placed': logs,
  'load.rejected': logs,
  'loads.joined': logs,
  'mix.ordered': leads,
  'placement.planned': leads,
  'push.decided': owner,
  'push.quarantined': 'server',
  'rain.fell': logs,
  'site.addressed': leads,
  'slab.served': logs,
  'flow.measured': logs,
  'strength.reported': logs,
  'temperature.measured': logs,
  'ticket.signed': logs,
  'weather.observed': logs,
}

export const mayMake = (role: Role, kind: Kind): boolean => {
  const who = MAY_MAKE[kind]
  return who !== 'server' && who.includes(role)
}

/**
 * Whether this kind may come from such a device under the name of a person of this role. On a shared phone a name is
 * tapped and proves nobody: at most what a crew member may do, and nothing of the company's own affairs (SPEC L55).
 */
export const mayMakeOn = (use: Device['use'], role: Role, kind: Kind): boolean =>
  mayMake(role, kind) && (use !== 'shared' || (mayMake('crew', kind) && KINDS[kind].thread === 'job'))

/** The standing of whoever asks on such a device: on a shared phone the crew's, whoever answers for it. */
export const standingOn = (use: Device['use'], role: Role): Role => (use === 'shared' ? 'crew' : role)

/** Whether a person of this role may make this very entry: only an owner makes an owner. */
export const mayMakeEntry = (role: Role, entry: Entry): boolean =>
  mayMake(role, entry.kind) &&
  !(entry.kind === 'person.added' && entry.body.role === 'owner' && role !== 'owner')
