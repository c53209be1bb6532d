import { describe, expect, test } from 'vitest'
import { MAY_MAKE } from '../../api/domain/access/access.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { ROLES, type Role } from '../../api/domain/entry/role.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { logEntry } from '../../web/sync/log-entry.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import { sampleBody } from '../kit/any-body.ts'
import { entryText, JOB, jsonOf, LOAD, openSite, type Person, pushed, type Site } from './site.ts'

const HASH = 'ab'.repeat(32)
const picked = (person: string) => ({ known: 'picked', person })

/** One push of one entry each, so that each is judged by itself. */
const push = async (by: Person, entries: readonly string[]) => (await pushed(by, { entries })).verdicts

const crewed = async () => {
  const site = await openSite({ seed: 31 })
  const beto = await site.hire('Beto', 'crew')
  return { site, beto, shared: await site.share() }
}

describe('[L55] on a shared phone a tapped name proves nobody', () => {
  test('[L55] its enrolment says that it is shared and who answers for it, and the joining phone is told', async () => {
    const { site, shared } = await crewed()
    const last = (await site.stores.log.thread(site.company, site.company)).at(-1)!
    expect(JSON.parse(new TextDecoder().decode(last.bytes))).toMatchObject({
      kind: 'device.enrolled',
      v: 2,
      body: { person: site.owner.identity.person, use: 'shared', device: shared.identity.device },
    })
    expect(shared.identity.use).toBe('shared')
    expect('use' in site.owner.identity).toBe(false)
    const code = await site.inviteCode(site.owner.identity.person, site.owner, 'shared')
    const look = await site.nobody({ method: 'POST', path: '/api/join/look', ...jsonBody({ code }) })
    expect(jsonOf(look)).toMatchObject({ person: 'Curt', use: 'shared' })
  })

  test('[L55] it logs as whoever was picked, and only as picked', async () => {
    const { site, beto, shared } = await crewed()
    const of = (by: unknown) => entryText(site, shared, { by })
    const verdicts = await push(shared, [
      of(picked(beto.identity.person)),
      of(picked(site.owner.identity.person)),
      of(picked(LOAD)),
      of({ known: 'own-device', person: site.owner.identity.person }),
      of({ known: 'pin', person: beto.identity.person }),
      of({ known: 'passkey', person: beto.identity.person }),
    ])
    expect(verdicts).toMatchObject([
      { is: 'kept' },
      { is: 'kept' },
      { is: 'refused', code: 'entry-person', at: '/by/person' },
      { is: 'refused', code: 'entry-person', at: '/by/known' },
      { is: 'refused', code: 'entry-person', at: '/by/known' },
      { is: 'refused', code: 'entry-person', at: '/by/known' },
    ])
  })

  test('[L55] a phone of one’s own logs in nobody else’s name, and never as picked', async () => {
    const { site, beto } = await crewed()
    const of = (by: unknown) => entryText(site, beto, { by })
    const verdicts = await push(beto, [
      of(picked(beto.identity.person)),
      of({ known: 'own-device', person: site.owner.identity.person }),
      of({ known: 'passkey', person: beto.identity.person }),
    ])
    expect(verdicts).toMatchObject([
      { is: 'refused', code: 'entry-person', at: '/by/known' },
      { is: 'refused', code: 'entry-person', at: '/by/person' },
      { is: 'refused', code: 'entry-person', at: '/by/known' },
    ])
  })

  for (const role of ROLES)
    test(`[L55] picked as ${role}: each kind of entry, at most what crew may and nothing of the company`, async () => {
      const { site, shared } = await crewed()
      const person = role === 'owner' ? site.owner : await site.hire('Somebody', role)
      const kinds = (Object.keys(KINDS) as Kind[]).filter((kind) => KINDS[kind].maker === 'person')
      const verdicts = await push(
        shared,
        kinds.map((kind) =>
          entryText(site, shared, {
            kind,
            job: KINDS[kind].thread === 'company' ? site.company : JOB,
            by: picked(person.identity.person),
            body: sampleBody(kind),
            evidence: kind === 'photo.taken' ? [photoOf(sampleBody(kind))] : undefined,
            corrects: kind === 'entry.withdrawn' ? [HASH] : undefined,
          }),
        ),
      )
      const may = (kind: Kind, as: Role) => (MAY_MAKE[kind] as readonly string[]).includes(as)
      for (const [i, kind] of kinds.entries()) {
        const allowed = may(kind, 'crew') && may(kind, role) && KINDS[kind].thread === 'job'
        expect(verdicts[i], kind).toMatchObject(
          allowed ? { is: 'kept' } : { is: 'refused', code: 'role-may-not', at: '/kind' },
        )
      }
    })

  test('[L55] it reads and sends as crew does, whoever answers for it: no record, no join code, nothing set aside', async () => {
    const { shared } = await crewed()
    const status = async (method: 'GET' | 'POST', path: string, body?: unknown) =>
      (await shared.phone.wire({ method, path, ...(body === undefined ? {} : jsonBody(body)) })).status
    expect(await status('GET', '/api/jobs')).toBe(200)
    expect(await status('GET', '/api/pull?from=0')).toBe(200)
    expect(await status('GET', `/api/jobs/${JOB}/record.zip`)).toBe(403)
    expect(await status('POST', '/api/invite', { person: shared.identity.person, use: 'phone' })).toBe(403)
    expect(await status('GET', `/api/set-aside/${shared.identity.device}`)).toBe(403)
  })

  test('[L55] the phone itself logs nothing while nobody is picked', async () => {
    const { site, beto, shared } = await crewed()
    const at = shared.phone.localTime()
    const arrived = {
      job: JOB,
      kind: 'load.arrived',
      body: { load: LOAD },
      occurredAt: at,
      source: 'tap',
    } as const
    await expect(logEntry(shared.phone, arrived)).rejects.toThrow('nobody was picked')
    expect(await shared.phone.store.transact((tx) => getMeta(tx, 'device-log'))).toBeUndefined()
    await logEntry(shared.phone, arrived, { known: 'picked', person: beto.identity.person })
    expect(await syncRound(shared.phone)).toMatchObject({ is: 'synced', push: { is: 'pushed' } })
    expect((await namesIn(site, 'load.arrived'))[0]).toMatchObject({ known: 'picked', name: 'Beto' })
  })
})

const photoOf = (body: unknown): string => (body as { photo: string }).photo

/** Who the server's model says made entries of this kind, and how that was known. */
const namesIn = async (site: Site, kind: string) => {
  const answer = jsonOf(await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` }))
  const { model } = answer as { model: { history: { kind: string; by: unknown }[] } }
  return model.history.filter((entry) => entry.kind === kind).map((entry) => entry.by)
}
