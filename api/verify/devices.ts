import { equalBytes, readBase64 } from '../domain/log/encoding.ts'
import { type Quoted, quotedOf } from './company.ts'
import type { Context } from './context.ts'

/** The devices that quoted entries enrol, with their keys, in whose hands they are, and which one is the server. */
export type Devices = {
  readonly keys: ReadonlyMap<string, Uint8Array>
  readonly holders: ReadonlyMap<string, Holder>
  readonly server: string | undefined
}

/** A device of one person alone, or one that the crew shares. */
export type Holder = { readonly is: 'person'; readonly person: string } | { readonly is: 'crew' }

/**
 * L29: the server device enrolled itself at the log's index 1; it enrols every other one, each once. Where that index
 * can't be shown, which is reported as such, the enrolment is taken at its word, so that the rest is checked.
 */
export const readDevices = ({ report }: Context, quoted: readonly Quoted[]): Devices => {
  const enrolments = quotedOf(quoted, 'device.enrolled')
  const first = enrolments.find(
    ({ entry, index }) =>
      entry.body.use === 'server' &&
      entry.device === entry.body.device &&
      (index === 1 || index === undefined),
  )
  const server = first?.entry.body.device
  const keys = new Map<string, Uint8Array>()
  const holders = new Map<string, Holder>()
  for (const { hash, entry } of enrolments) {
    const name = `company/${hash}.json`
    const { device } = entry.body
    const key = readBase64(entry.body.key)
    const before = keys.get(device)
    if (entry.device !== server)
      report('device-unknown', name, 'the server’s own device did not write this enrolment')
    else if (entry.body.use === 'server' && device !== server)
      report('device-unknown', name, 'it enrols a second server')
    else if (before && key && !equalBytes(before, key))
      report('device-unknown', name, 'it enrols a device that was enrolled before')
    else if (key) {
      keys.set(device, key)
      if (entry.body.use === 'shared') holders.set(device, { is: 'crew' })
      else if (entry.body.use !== 'server') holders.set(device, { is: 'person', person: entry.body.person })
    }
  }
  return { keys, holders, server }
}
