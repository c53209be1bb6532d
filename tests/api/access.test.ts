import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { ENDPOINTS, type EndpointName, mayUse } from '../../api/contract/endpoints.ts'
import { MAY_MAKE, type Standing } from '../../api/domain/access/access.ts'
import { ACTIONS } from '../../api/domain/access/actions.ts'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import { ROLES } from '../../api/domain/entry/role.ts'
import { toBase64, toHex } from '../../api/domain/log/encoding.ts'
import { sha256 } from '../../api/server/senses.ts'
import { syncRound } from '../../web/sync/round.ts'
import { sampleBody } from '../kit/any-body.ts'
import { entryText, hashOf, JOB, jpeg, LOAD, openSite, type Person, pushed, type Site } from './site.ts'

const STANDINGS: readonly Standing[] = ['nobody', 'withdrawn', ...ROLES]
const PHOTO = toHex(sha256(jpeg(64)))

type Sample = { readonly path: string; readonly body?: unknown; readonly headers?: Record<string, string> }

/** A request that each endpoint would take from those who may. The compiler asks for the missing one. */
const SAMPLES: { readonly [E in EndpointName]: Sample } = {
  setUpState: { path: '/api/set-up/look', body: { code: 'nobody-made-this-code' } },
  setUp: { path: '/api/set-up', body: { code: 'nobody-made-this-code' } },
  joinState: { path: '/api/join/look', body: { code: 'nobody-made-this-code' } },
  join: { path: '/api/join', body: { code: 'nobody-made-this-code', key: toBase64(new Uint8Array(32)) } },
  challenge: { path: '/api/session/challenge', body: {} },
  session: { path: '/api/session', body: { company: JOB, device: JOB, nonce: 'x', signature: 'AAAA' } },
  slip: { path: '/api/slip?origin=x&size=1&root=x' },
  push: { path: '/api/push', body: { protocol: 1 } },
  pull: { path: '/api/pull?from=0' },
  live: { path: '/api/live' },
  invite: { path: '/api/invite', body: { person: JOB, use: 'phone' } },
  setAside: { path: `/api/set-aside/${JOB}` },
  jobs: { path: '/api/jobs' },
  job: { path: `/api/jobs/${JOB}` },
  jobSlip: { path: `/api/jobs/${JOB}/slip` },
  record: { path: `/api/jobs/${JOB}/record.zip` },
  photoState: { path: `/api/photos/${PHOTO}/held` },
  photoPart: {
    path: `/api/photos/${PHOTO}`,
    body: jpeg(64),
    headers: { 'upload-offset': '0', 'upload-length': '64' },
  },
  photo: { path: `/api/photos/${PHOTO}` },
  photoSmall: { path: `/api/photos/${PHOTO}/small` },
  photoLarge: { path: `/api/photos/${PHOTO}/large` },
  photoFacts: { path: `/api/photos/${PHOTO}/facts` },
}

let site: Site
let people: { readonly [S in Exclude<Standing, 'nobody'>]: Person }

beforeAll(async () => {
  site = await openSite()
  people = {
    owner: site.owner,
    foreman: await site.hire('Marisol', 'foreman'),
    crew: await site.hire('Beto', 'crew'),
    office: await site.hire('Ines', 'office'),
    withdrawn: await site.hire('Dale', 'owner'),
  }
  await site.owner.phone.log(site.company, 'device.withdrawn', { device: people.withdrawn.identity.device })
  await site.owner.phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  expect(await syncRound(site.owner.phone)).toMatchObject({ is: 'synced' })
})

const request = (name: EndpointName, standing: Standing): Request => {
  const { path, body, headers } = SAMPLES[name]
  return new Request(`http://house.test${path}`, {
    method: ENDPOINTS[name].method,
    headers: {
      ...(body instanceof Uint8Array ? {} : { 'content-type': 'application/json' }),
      ...headers,
      ...(standing === 'nobody' ? {} : { cookie: people[standing].cookie() }),
    },
    ...(body === undefined
      ? {}
      : { body: body instanceof Uint8Array ? new Blob([body.slice()]) : JSON.stringify(body) }),
  })
}

test('[endpoints] the app has the routes of the table and no others', () => {
  const routes = site.house.app.routes.filter((r) => r.method !== 'ALL').map((r) => `${r.method} ${r.path}`)
  expect(routes.sort()).toEqual(
    Object.values(ENDPOINTS)
      .map((e) => `${e.method} ${e.path}`)
      .sort(),
  )
})

test('[endpoints] a path that the table does not name is answered with a problem, whoever asks', async () => {
  for (const method of ['GET', 'POST', 'PUT', 'PATCH', 'DELETE']) {
    const headers = { cookie: people.owner.cookie() }
    const answer = await site.send(new Request('http://house.test/api/entries', { method, headers }))
    expect(answer.status, method).toBe(404)
    expect(await answer.json()).toMatchObject({ code: 'not-found' })
  }
})

describe('[access] who may not use an endpoint gets 401 or 403 and changes nothing', () => {
  for (const name of Object.keys(ENDPOINTS) as EndpointName[])
    for (const standing of STANDINGS) {
      const may = mayUse(ENDPOINTS[name], standing)
      test(`[access] ${standing} ${may ? 'may' : 'may not'} use ${name}`, async () => {
        const before = await site.dump()
        site.calls.length = 0
        const answer = await site.send(request(name, standing))
        if (may) {
          expect([401, 403].includes(answer.status) && name !== 'session').toBe(false)
          await answer.body?.cancel()
          return
        }
        expect(answer.status).toBe(standing === 'nobody' ? 401 : 403)
        expect(answer.headers.get('content-type')).toBe('application/problem+json')
        expect(await answer.json()).toMatchObject({
          code: standing === 'nobody' ? 'not-signed-in' : 'not-allowed',
          errors: [],
        })
        // Who is there has to be looked up; nothing else is read, and nothing is written.
        const lookUps = standing === 'nobody' ? [] : ['accounts.session', 'log.thread']
        expect(site.calls).toEqual(lookUps)
        expect(await site.dump()).toBe(before)
      })
    }
})

test('[access] nobody may use a code, sign in and check a slip, and nothing else', () => {
  const open = Object.entries(ACTIONS).filter(([, who]) => who.includes('nobody'))
  expect(open.map(([action]) => action).sort()).toEqual(['checkSlip', 'signIn', 'useCode'])
  const set = Object.entries(ACTIONS).filter(([, who]) => who.includes('withdrawn'))
  expect(set.map(([action]) => action).sort()).toEqual(['checkSlip', 'push', 'signIn', 'useCode'])
})

test('[access] a session that the server never gave is nobody’s', async () => {
  for (const cookie of [
    'screedbook_session=AAAAAAAAAAAAAAAAAAAAAA',
    'screedbook_session=',
    'screedbook_session=%00',
  ])
    expect((await site.send(new Request('http://house.test/api/jobs', { headers: { cookie } }))).status).toBe(
      401,
    )
})

const HASH = 'ab'.repeat(32)

/** A body of each kind, about somebody or something new. */
const bodyOf = (kind: Kind, id: string): unknown =>
  // Only an owner makes an owner: that is another rule's.
  kind === 'person.added'
    ? { person: id, name: 'Beto', role: 'crew' }
    : sampleBody(kind, {
        uuid: fc.constant(id),
        hash: fc.constant(HASH),
        time: fc.constant('2026-04-21T07:05-05:00'),
      })

describe('[access] who may not make a kind of entry is refused, and the refusal is noted', () => {
  for (const role of ROLES)
    test(`[access] ${role}, each kind of entry`, async () => {
      const yard = await openSite({ seed: 7 })
      const person = role === 'owner' ? yard.owner : await yard.hire('Beto', role)
      // Curt's phone has pushed before, to add the others.
      const before =
        role === 'owner'
          ? await yard.stores.log.deviceLeaves(yard.company, person.identity.device, 1, 99)
          : []
      expect(before).toEqual([])
      const kinds = Object.keys(KINDS) as Kind[]
      const entries = kinds.map((kind) => {
        const server = KINDS[kind].maker === 'server'
        return entryText(yard, person, {
          kind,
          job: KINDS[kind].thread === 'company' ? yard.company : JOB,
          body: bodyOf(kind, yard.newId()),
          evidence: kind === 'photo.taken' ? [HASH] : undefined,
          corrects: kind === 'entry.withdrawn' ? [HASH] : undefined,
          ...(server ? { by: { known: 'server' }, source: 'server' } : {}),
        })
      })
      const { verdicts } = await pushed(person, { entries })
      const refused = new Map((await yard.refusals()).map((r) => [r.hash, r]))
      for (const [i, kind] of kinds.entries()) {
        const who = MAY_MAKE[kind]
        const code = who === 'server' ? 'kind-of-server' : who.includes(role) ? undefined : 'role-may-not'
        // Who may decide can only decide on what is there: another rule's.
        if (kind === 'push.decided' && code === undefined) {
          expect(verdicts[i]).toEqual({ is: 'refused', code: 'not-set-aside', at: '/body/entries/0' })
          continue
        }
        const noted = refused.get(hashOf(entries[i]!))
        if (code === undefined) {
          expect(verdicts[i], kind).toMatchObject({ is: 'kept' })
          expect(noted, kind).toBeUndefined()
        } else {
          expect(verdicts[i], kind).toEqual({ is: 'refused', code, at: '/kind' })
          expect(noted, kind).toMatchObject({ code, device: person.identity.device })
        }
      }
    })
})

test('[access] only an owner makes an owner', async () => {
  const yard = await openSite({ seed: 8 })
  const marisol = await yard.hire('Marisol', 'foreman')
  const add = (by: Person, role: string) =>
    entryText(yard, by, {
      kind: 'person.added',
      job: yard.company,
      body: { person: yard.newId(), name: 'Beto', role },
    })
  const entries = [add(marisol, 'owner'), add(marisol, 'foreman')]
  const { verdicts } = await pushed(marisol, { entries })
  expect(verdicts).toMatchObject([{ is: 'refused', code: 'role-may-not' }, { is: 'kept' }])
})

test('[access] a role changed in a push holds for the next entry of the same push', async () => {
  const yard = await openSite({ seed: 9 })
  const { person } = yard.owner.identity
  const entries = [
    entryText(yard, yard.owner, { kind: 'role.changed', job: yard.company, body: { person, role: 'crew' } }),
    entryText(yard, yard.owner, { kind: 'device.withdrawn', job: yard.company, body: { device: LOAD } }),
  ]
  const { verdicts } = await pushed(yard.owner, { entries })
  expect(verdicts).toMatchObject([{ is: 'kept' }, { is: 'refused', code: 'role-may-not' }])
})
