import type { HashedEntry } from '../entry/read.ts'
import type { Role } from '../entry/role.ts'

export type Person = { readonly person: string; readonly name: string; readonly role: Role }
export type Device = {
  readonly device: string
  /** Undefined for the server's own device. */
  readonly person: string | undefined
  /** Ed25519 public key, base64. */
  readonly key: string
  readonly use: 'phone' | 'office' | 'shared' | 'server'
  readonly withdrawn: boolean
}

export type Members = {
  readonly company:
    | { readonly name: string; readonly zone: string; readonly origin: string; readonly logKey: string }
    | undefined
  readonly people: ReadonlyMap<string, Person>
  readonly devices: ReadonlyMap<string, Device>
}

export const NO_MEMBERS: Members = { company: undefined, people: new Map(), devices: new Map() }

/**
 * Who belongs to a company, from its own thread in log order: who may do what is decided by the order in which the
 * server took the entries, and a later entry holds. `corrects` has no power here: nothing un-enrols a device but
 * `device.withdrawn`, and nothing re-founds a company.
 */
export const foldMembers = (entries: readonly HashedEntry[], from: Members = NO_MEMBERS): Members => {
  const people = new Map(from.people)
  const devices = new Map(from.devices)
  let company = from.company
  for (const { entry } of entries) {
    switch (entry.kind) {
      case 'company.founded':
        company ??= entry.body
        break
      case 'owner.named':
        if (!people.has(entry.body.person)) people.set(entry.body.person, { ...entry.body, role: 'owner' })
        break
      case 'person.added':
        if (!people.has(entry.body.person)) people.set(entry.body.person, entry.body)
        break
      case 'role.changed': {
        const person = people.get(entry.body.person)
        if (person) people.set(person.person, { ...person, role: entry.body.role })
        break
      }
      case 'device.enrolled':
        if (!devices.has(entry.body.device))
          devices.set(entry.body.device, {
            device: entry.body.device,
            person: 'person' in entry.body ? entry.body.person : undefined,
            key: entry.body.key,
            use: entry.body.use,
            withdrawn: false,
          })
        break
      case 'device.withdrawn': {
        const device = devices.get(entry.body.device)
        if (device && device.use !== 'server') devices.set(device.device, { ...device, withdrawn: true })
        break
      }
      default:
        break
    }
  }
  return { company, people, devices }
}
