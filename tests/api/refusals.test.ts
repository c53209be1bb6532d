import { describe, expect, test, vi } from 'vitest'
import { PROBLEMS, type ProblemBody, type ProblemCode } from '../../api/contract/problems.ts'
import { VOCABULARY } from '../../api/domain/entry/registry.ts'
import { say } from '../../api/domain/words/words.ts'
import { phoneEntries } from '../../web/sync/entries.ts'
import { logEntry } from '../../web/sync/log-entry.ts'
import { syncRound } from '../../web/sync/round.ts'
import {
  entryText,
  hashOf,
  JOB,
  jsonOf,
  LOAD,
  openSite,
  type Person,
  problemOf,
  pushed,
  type Site,
  sendPush,
  signedPush,
} from './site.ts'

const withBeto = async (seed = 2): Promise<{ site: Site; beto: Person }> => {
  const site = await openSite({ seed })
  return { site, beto: await site.hire('Beto', 'crew') }
}

test('[L45] another entry under an id that the log knows is refused and noted once, with both hashes known', async () => {
  const { site, beto } = await withBeto()
  const id = site.newId()
  const first = entryText(site, beto, { id })
  const other = entryText(site, beto, { id, body: { remark: { lang: 'es', text: 'La base estaba seca' } } })
  expect((await pushed(beto, { entries: [first] })).verdicts).toMatchObject([{ is: 'kept' }])
  for (let again = 0; again < 2; again++) {
    const { verdicts } = await pushed(beto, { entries: [other], before: [first] })
    expect(verdicts).toEqual([{ is: 'refused', code: 'id-taken', at: '/id' }])
  }
  const device = beto.identity.device
  expect(await site.refusals()).toEqual([{ hash: hashOf(other), device, code: 'id-taken' }])
  const [held] = await site.stores.log.thread(site.company, JOB)
  expect(held).toMatchObject({ id, entryHash: hashOf(first) })
})

test('[L45] two entries under one id in one push: the first is kept, the second refused', async () => {
  const { site, beto } = await withBeto()
  const id = site.newId()
  const entries = [entryText(site, beto, { id }), entryText(site, beto, { id, mono: 6 })]
  const { verdicts } = await pushed(beto, { entries })
  expect(verdicts).toMatchObject([{ is: 'kept' }, { is: 'refused', code: 'id-taken' }])
})

/** What is wrong with an entry, the code that says so, and where. */
const WRONG: readonly {
  readonly name: string
  readonly of: (site: Site, beto: Person) => Readonly<Record<string, unknown>>
  readonly code: ProblemCode
  readonly at: string
}[] = [
  {
    name: 'an entry of another device',
    of: (site) => ({ device: site.owner.identity.device }),
    code: 'entry-device',
    at: '/device',
  },
  {
    name: 'an entry in somebody else’s name',
    of: (site) => ({ by: { known: 'own-device', person: site.owner.identity.person } }),
    code: 'entry-person',
    at: '/by/person',
  },
  {
    name: 'a job’s entry in the company’s thread',
    of: (site) => ({ job: site.company }),
    code: 'entry-thread',
    at: '/job',
  },
  {
    name: 'a company’s entry in a job’s thread',
    of: (site) => ({ kind: 'person.added', body: { person: site.newId(), name: 'Ines', role: 'crew' } }),
    code: 'entry-thread',
    at: '/job',
  },
  { name: 'an unknown kind', of: () => ({ kind: 'load.tasted' }), code: 'kind-unknown', at: '/kind' },
  { name: 'a kind of Object’s own', of: () => ({ kind: 'constructor' }), code: 'kind-unknown', at: '/kind' },
  {
    name: 'an id that is no UUIDv7',
    of: () => ({ id: '5d1f0f0e-5a3c-4c8e-9b1a-0d6f3c1b2a49' }),
    code: 'entry-malformed',
    at: '/id',
  },
  {
    name: 'a time with Z',
    of: () => ({ occurredAt: '2026-04-21T12:05Z' }),
    code: 'entry-malformed',
    at: '/occurredAt',
  },
  {
    name: '30 February',
    of: () => ({ occurredAt: '2026-02-30T07:05-06:00' }),
    code: 'entry-malformed',
    at: '/occurredAt',
  },
  {
    name: 'water in a unit that water is not asked in',
    of: () => ({
      kind: 'water.added',
      body: { load: LOAD, amount: { is: 'given', text: '3', unit: 'yd3' } },
    }),
    code: 'entry-malformed',
    at: '/body/amount',
  },
  {
    name: 'a ticket number with a blank',
    of: () => ({
      kind: 'ticket.recorded',
      body: {
        load: LOAD,
        number: { is: 'given', text: '713 40' },
        truck: { is: 'not-stated' },
        yards: { is: 'not-stated' },
        batchedAt: { is: 'not-stated' },
        limit: { is: 'not-stated' },
      },
    }),
    code: 'entry-malformed',
    at: '/body/number/text',
  },
  {
    name: 'a member of the body too many',
    of: () => ({ kind: 'load.arrived', body: { load: LOAD, 'a/b~c': 'x' } }),
    code: 'entry-malformed',
    at: '/body/a~1b~0c',
  },
  { name: 'a member too many', of: () => ({ position: 4 }), code: 'entry-malformed', at: '/position' },
  {
    name: 'a reason without anything corrected',
    of: () => ({ why: { lang: 'en', text: 'misread' } }),
    code: 'entry-malformed',
    at: '/why',
  },
  {
    name: 'a text of more than 16 KiB',
    of: () => ({ body: { remark: { lang: 'en', text: 'x'.repeat(17_000) } } }),
    code: 'entry-too-large',
    at: '',
  },
  { name: 'true', of: () => ({ body: { load: true } }), code: 'entry-value-kind', at: '/body/load' },
  { name: 'a fraction', of: () => ({ mono: 1.5 }), code: 'entry-value-kind', at: '/mono' },
]

describe('[L31] a refused entry keeps its place in the device log, is noted, and those after it go on', () => {
  for (const { name, of, code, at } of WRONG)
    test(`[L31] ${name}: ${code} at ${at || 'the whole'}`, async () => {
      const { site, beto } = await withBeto()
      const wrong = entryText(site, beto, of(site, beto))
      const entries = [entryText(site, beto, {}), wrong, entryText(site, beto, {})]
      const { verdicts, size } = await pushed(beto, { entries })
      expect(verdicts).toMatchObject([{ is: 'kept' }, { is: 'refused', code, at }, { is: 'kept' }])
      expect(size).toBe(await site.size())
      const device = beto.identity.device
      expect(await site.refusals()).toEqual([{ hash: hashOf(wrong), device, code }])
      const stored = await site.stores.log.deviceLeaves(site.company, device, 1, 9)
      expect(stored).toEqual(entries.map(hashOf))
      expect((await site.stores.log.thread(site.company, JOB)).length).toBe(2)
      const next = await pushed(beto, { entries: [entryText(site, beto, {})], before: entries })
      expect(next.verdicts).toMatchObject([{ is: 'kept' }])
    })

  const SPELT: readonly [string, string, ProblemCode][] = [
    ['white space', ' {"v":1}', 'entry-not-canonical'],
    ['a doubled name', '{"v":1,"v":1}', 'entry-not-canonical'],
    ['another order', '{"v":1,"id":"x"}', 'entry-not-canonical'],
    ['a byte-order mark', '\ufeff{"v":1}', 'entry-not-json'],
    ['no JSON', 'load arrived', 'entry-not-json'],
    ['nothing', '', 'entry-not-json'],
    ['thirteen levels', `${'['.repeat(13)}${']'.repeat(13)}`, 'entry-too-deep'],
    ['null', 'null', 'entry-value-kind'],
    ['a bare number', '7', 'entry-malformed'],
    ['a text', '"v"', 'entry-malformed'],
  ]
  for (const [name, text, code] of SPELT)
    test(`[L4] ${name}: ${code}`, async () => {
      const { site, beto } = await withBeto()
      const { verdicts } = await pushed(beto, { entries: [text, entryText(site, beto, {})] })
      expect(verdicts).toMatchObject([{ is: 'refused', code }, { is: 'kept' }])
      expect(await site.refusals()).toMatchObject([{ hash: hashOf(text), code }])
    })
})

test('[L31] a phone keeps what was refused with its reason, and goes on', async () => {
  const { site, beto } = await withBeto()
  const { phone } = beto
  await phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  const wrong = await phone.log(site.company, 'device.withdrawn', { device: site.owner.identity.device })
  await phone.log(JOB, 'load.arrived', { load: LOAD })
  expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  const { own, logged } = await phone.store.transact((tx) => phoneEntries(tx, phone.sha256))
  expect(own.map((entry) => entry.state.is)).toEqual(['kept', 'refused', 'kept'])
  expect(own[1]).toMatchObject({ hash: wrong, state: { code: 'role-may-not', at: '/kind' } })
  expect(logged.some((entry) => entry.hash === wrong)).toBe(false)
})

/** The server of the next release: all of it loaded anew, with a vocabulary that is one greater. */
const openNextRelease = async () => {
  vi.resetModules()
  vi.doMock('../../api/domain/entry/registry.ts', async (original) => ({
    ...(await original<typeof import('../../api/domain/entry/registry.ts')>()),
    VOCABULARY: VOCABULARY + 1,
  }))
  const { openHouse } = await import('../kit/house.ts')
  vi.doUnmock('../../api/domain/entry/registry.ts')
  return openHouse
}

test('[L9] a newer v waits for the server, is no refusal, and is taken once the server was updated', async () => {
  const { site, beto } = await withBeto()
  const newer = entryText(site, beto, { v: VOCABULARY + 1 })
  const entries = [entryText(site, beto, {}), newer, entryText(site, beto, {})]
  const first = await pushed(beto, { entries })
  expect(first.verdicts).toMatchObject([{ is: 'kept' }, { is: 'waits-for-server' }, { is: 'kept' }])
  expect(await site.refusals()).toEqual([])
  const again = await pushed(beto, { entries })
  expect(again.verdicts).toEqual(first.verdicts)
  const house = await (await openNextRelease())({
    chance: site.chance,
    now: site.now,
    stores: site.stores,
    photos: site.photos,
  })
  const body = JSON.stringify(await signedPush(beto, { entries }))
  const headers = { cookie: beto.cookie(), 'content-type': 'application/json' }
  const answer = await house.app.request('/api/push', { method: 'POST', headers, body })
  expect(await answer.json()).toMatchObject({
    verdicts: [first.verdicts[0], { is: 'kept', position: first.size }, first.verdicts[2]],
  })
  expect((await site.stores.log.thread(site.company, JOB)).map((leaf) => leaf.entryHash)).toEqual(
    [entries[0]!, entries[2]!, newer].map(hashOf),
  )
})

test('[L9] a newer v is no refusal even where the rest of it has a shape that nobody knows', async () => {
  const { site, beto } = await withBeto()
  const entries = [`{"v":${VOCABULARY + 1}}`, '{"kind":"load.tasted","v":9007199254740991}']
  const { verdicts } = await pushed(beto, { entries })
  expect(verdicts).toEqual([{ is: 'waits-for-server' }, { is: 'waits-for-server' }])
  expect(await site.refusals()).toEqual([])
})

test('[protocol] a newer protocol is "the server is older", whatever fields it brought, and changes nothing', async () => {
  const { site, beto } = await withBeto()
  const request = await signedPush(beto, { entries: [entryText(site, beto, {})] })
  const before = await site.dump()
  for (const newer of [{ protocol: 2 }, { protocol: 99, sealed: { by: 'x' }, entries: 'elsewhere' }]) {
    const answer = await sendPush(beto, { ...request, ...newer })
    expect(answer.status).toBe(503)
    expect(problemOf(answer).code).toBe('protocol-newer')
  }
  expect(await site.dump()).toBe(before)
})

test('[clocks] an impossible order of times is taken and shown, never refused', async () => {
  const { site, beto } = await withBeto()
  const at = (kind: string, occurredAt: string) =>
    entryText(site, beto, { kind, body: { load: LOAD }, occurredAt })
  const entries = [
    at('load.left', '2026-04-21T06:50-05:00'),
    at('discharge.ended', '2026-04-21T06:55-05:00'),
    at('discharge.started', '2026-04-21T07:10-05:00'),
    at('load.arrived', '2031-01-01T00:00+14:00'),
  ]
  const { verdicts } = await pushed(beto, { entries })
  expect(verdicts.map((verdict) => verdict.is)).toEqual(['kept', 'kept', 'kept', 'kept'])
  const answer = await beto.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` })
  expect(jsonOf(answer)).toMatchObject({
    model: { loads: [{ oddities: expect.arrayContaining(['times-backwards']) }] },
  })
})

test('[late] an entry recorded long after it occurred is taken, and marked late with its delay', async () => {
  const { site, beto } = await withBeto()
  const { phone } = beto
  const at = (occurredAt: string) =>
    logEntry(phone, { job: JOB, kind: 'load.arrived', body: { load: LOAD }, occurredAt, source: 'tap' })
  // It is 07:00 in Chicago.
  const late = await at('2026-04-21T06:49-05:00')
  const inTime = await at('2026-04-21T06:51-05:00')
  expect(await syncRound(phone)).toMatchObject({ is: 'synced' })
  const answer = jsonOf(await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` }))
  const { history } = (
    answer as { model: { history: { entry: string; late: string; delayMinutes: number }[] } }
  ).model
  const line = (hash: string) => history.find((entry) => entry.entry === hash)
  expect(line(late)).toMatchObject({ late: 'yes', delayMinutes: 11 })
  expect(line(inTime)).toMatchObject({ late: 'no', delayMinutes: 9 })
})

describe('[problems] each refusal of a request is an RFC 9457 body, in the asker’s language', () => {
  type Cause = (site: Site, beto: Person, headers: Record<string, string>) => Promise<Response>
  const call =
    (method: string, path: string, body?: unknown, more: Record<string, string> = {}): Cause =>
    (site, beto, headers) =>
      site.send(
        new Request(`http://house.test${path}`, {
          method,
          headers: { cookie: beto.cookie(), ...headers, ...more },
          ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
        }),
      )
  const CAUSES: readonly [ProblemCode, Cause][] = [
    ['not-signed-in', call('GET', '/api/jobs', undefined, { cookie: '' })],
    ['not-allowed', call('POST', '/api/invite', {})],
    ['not-found', call('GET', '/api/nothing')],
    ['request-malformed', call('POST', '/api/push', '{')],
    ['request-malformed', call('POST', '/api/push', { protocol: 1 })],
    ['request-malformed', call('GET', '/api/pull?from=x')],
    ['request-too-large', call('POST', '/api/session', 'x'.repeat(70_000))],
    ['code-used', call('POST', '/api/join/look', { code: 'nobody-made-this-code' })],
    ['cross-site', call('POST', '/api/push', {}, { 'sec-fetch-site': 'cross-site' })],
    ['protocol-newer', call('POST', '/api/push', { protocol: 2 })],
    [
      'photo-too-large',
      call('PUT', `/api/photos/${'ab'.repeat(32)}`, 'x', {
        'upload-offset': '0',
        'upload-length': '67108865',
      }),
    ],
  ]
  for (const [code, cause] of CAUSES)
    test(`[problems] ${code}`, async () => {
      const { site, beto } = await withBeto()
      for (const [asked, language] of [
        ['', 'en'],
        ['en-US,es;q=0.5', 'en'],
        ['es', 'es'],
        ['es-US,es;q=0.9,en;q=0.8', 'es'],
      ] as const) {
        const answer = await cause(site, beto, { 'accept-language': asked })
        expect(answer.headers.get('content-type')).toBe('application/problem+json')
        expect(answer.headers.get('cache-control')).toBe('no-store')
        const body = (await answer.json()) as ProblemBody
        const at = body.errors[0]?.pointer ?? ''
        const sentence = say(language, PROBLEMS[code].says, { at })
        expect(body).toEqual({
          type: `urn:screedbook:problem:${code}`,
          title: sentence,
          detail: sentence,
          status: PROBLEMS[code].status,
          code,
          errors: at ? [{ pointer: at }] : [],
        })
        expect(answer.status).toBe(PROBLEMS[code].status)
      }
    })

  test('[problems] a field that is wrong is pointed to', async () => {
    const { site, beto } = await withBeto()
    const request = await signedPush(beto, { entries: [entryText(site, beto, {})] })
    const wrong: readonly [Record<string, unknown>, string][] = [
      [{ epoch: 0 }, '/epoch'],
      [{ from: -1 }, '/from'],
      [{ entries: ['a', 7] }, '/entries/1'],
      [{ head: 7 }, '/head'],
      [{ protocol: 'one' }, '/protocol'],
    ]
    for (const [edit, at] of wrong)
      expect(problemOf(await sendPush(beto, { ...request, ...edit })).errors, at).toEqual([{ pointer: at }])
  })
})
