import { toBase64 } from '../../domain/log/encoding.ts'
import type { Draft } from './draft.ts'

export type Founding = {
  readonly company: string
  readonly name: string
  readonly zone: string
  readonly person: string
  readonly owner: string
  readonly device: string
  readonly key: string
  readonly use: 'phone' | 'office'
}

/** `code-used`: another key used this code before. The log decides, since it takes a device once. */
export type EnrolOutcome = 'enrolled' | 'code-used' | 'unavailable'

/** The log's first entries, all by the server's own device: the company, its owner, the two first devices (SPEC §7). */
export const foundCompany =
  (founding: Founding) =>
  async (draft: Draft): Promise<EnrolOutcome> => {
    const { company, name, zone, person, owner, device, key, use } = founding
    if (draft.size() > 0)
      return draft.state().members.devices.get(device)?.key === key ? 'enrolled' : 'code-used'
    const { log, device: server } = draft.keys
    await draft.say({
      job: company,
      kind: 'company.founded',
      body: { name, zone, origin: draft.origin, logKey: toBase64(log.publicKey) },
    })
    await draft.say({
      job: company,
      kind: 'device.enrolled',
      body: { device: server.id, key: toBase64(server.publicKey), use: 'server' },
    })
    await draft.say({ job: company, kind: 'owner.named', body: { person, name: owner } })
    await draft.say({ job: company, kind: 'device.enrolled', body: { device, person, key, use } })
    return 'enrolled'
  }

/** One more device of a person who is in the log. */
export const enrolDevice =
  (enrolment: { device: string; person: string; key: string; use: 'phone' | 'office' | 'shared' }) =>
  async (draft: Draft): Promise<EnrolOutcome> => {
    const { members } = draft.state()
    const before = members.devices.get(enrolment.device)
    if (before) return before.key === enrolment.key ? 'enrolled' : 'code-used'
    if (draft.isStopped() || !members.people.has(enrolment.person)) return 'unavailable'
    await draft.say({ job: draft.company, kind: 'device.enrolled', body: enrolment })
    return 'enrolled'
  }
