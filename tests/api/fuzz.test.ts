import fc from 'fast-check'
import { beforeAll, describe, expect, test, vi } from 'vitest'
import { ENDPOINTS, type EndpointName } from '../../api/contract/endpoints.ts'
import { isProblemCode, PROBLEMS } from '../../api/contract/problems.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { toBase64, toHex } from '../../api/domain/log/encoding.ts'
import { secretHash } from '../../api/server/middleware/session.ts'
import { sha256 } from '../../api/server/senses.ts'
import { FUZZ_TIMEOUT, RUNS, SEED } from '../fuzz/runs.ts'
import { entryText, JOB, jpeg, LOAD, openSite, type Person, type Site, signedPush } from './site.ts'

vi.setConfig({ testTimeout: FUZZ_TIMEOUT })

let site: Site
let cookies: readonly string[]
/** A body that the endpoint reads without complaint of its shape, to start from. */
let bodies: Partial<Record<EndpointName, unknown>>
let beto: Person

beforeAll(async () => {
  site = await openSite({ seed: 21 })
  beto = await site.hire('Beto', 'foreman')
  const ines = await site.hire('Ines', 'office')
  cookies = ['', 'screedbook_session=x', ...[site.owner, beto, ines].map((person) => person.cookie())]
  const code = 'a-code-that-nobody-made'
  const key = toBase64(new Uint8Array(32).fill(5))
  bodies = {
    setUpState: { code },
    setUp: { code, company: 'x', zone: 'UTC', owner: 'x', key, use: 'phone' },
    joinState: { code },
    join: { code, key },
    challenge: {},
    session: {
      company: site.company,
      device: beto.identity.device,
      nonce: 'x',
      signature: toBase64(jpeg(64)),
    },
    invite: { person: beto.identity.person, use: 'phone' },
    push: await signedPush(beto, { entries: [] }),
  }
})

/** The answer is one of those that the contract has, and no exception came to the edge. */
const answered = async (request: Request): Promise<{ status: number; code: string | undefined }> => {
  const answer = await site.send(request)
  const { status } = answer
  if (answer.headers.get('content-type') === 'text/event-stream') {
    await answer.body?.cancel()
    return { status, code: undefined }
  }
  const text = await answer.text()
  expect(site.reports.splice(0).map(String)).toEqual([])
  if (answer.headers.get('content-type') !== 'application/problem+json') {
    expect(status).toBeLessThan(400)
    return { status, code: undefined }
  }
  const { code } = JSON.parse(text) as { code: string }
  expect(isProblemCode(code) && PROBLEMS[code].status).toBe(status)
  return { status, code }
}

const wild = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 40 }),
  fc.string({ maxLength: 40 }),
  fc.constantFrom(
    '',
    '.',
    '..',
    '%',
    '%00',
    '%zz',
    '%2f',
    'constructor',
    '__proto__',
    JOB,
    LOAD,
    'ab'.repeat(32),
  ),
)
const segment = wild.map((text) => {
  try {
    return text.startsWith('%') ? text : encodeURIComponent(text)
  } catch {
    return '%ed%a0%80'
  }
})
const value: fc.Arbitrary<unknown> = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom('\ud800', '\u0000', -0, 1e308, 2 ** 53, [], {}, '__proto__'),
)
const headerText = fc.oneof(
  fc.constantFrom('', '0', '1', '64', '-1', '1e9', '9007199254740993', 'es', 'cross-site', 'null', 'a=b; c'),
  fc.string({ unit: fc.constantFrom(...'abc019;=,/*%" \t') as fc.Arbitrary<string>, maxLength: 20 }),
)
const headerName = fc.constantFrom(
  'upload-offset',
  'upload-length',
  'accept-language',
  'content-type',
  'content-encoding',
  'sec-fetch-site',
  'origin',
  'range',
  'if-none-match',
  'x-forwarded-proto',
  'cookie',
)

/** A valid body with one member changed, dropped or added, or nothing of the kind. */
const bodyOf = (name: EndpointName): fc.Arbitrary<string | Uint8Array> =>
  fc.oneof(
    fc.uint8Array({ maxLength: 200 }),
    value.map((v) => JSON.stringify(v)),
    fc
      .tuple(fc.nat(9), fc.constantFrom('drop', 'change', 'add', 'leave'), value, wild)
      .map(([at, how, other, added]) => {
        const body = { ...(bodies[name] as Record<string, unknown> | undefined) }
        const member = Object.keys(body)[at % Math.max(1, Object.keys(body).length)]
        if (how === 'add') return JSON.stringify({ ...body, [added]: other })
        if (member !== undefined && how === 'drop') delete body[member]
        if (member !== undefined && how === 'change') body[member] = other
        return JSON.stringify(body)
      }),
  )

describe('[fuzz] whatever is sent, the answer is one that the contract has and the log does not change', () => {
  for (const name of Object.keys(ENDPOINTS) as EndpointName[])
    test(`[fuzz] ${name}`, async () => {
      const { method, path } = ENDPOINTS[name]
      const parts = path.split('/')
      const arbitrary = fc.record({
        segments: fc.array(segment, { minLength: parts.length, maxLength: parts.length }),
        query: fc.dictionary(
          fc.oneof(
            fc.constantFrom('from', 'limit', 'origin', 'size', 'root', 'language', 'checkpoint'),
            wild,
          ),
          wild,
          { maxKeys: 4 },
        ),
        headers: fc.dictionary(headerName, headerText, { maxKeys: 4 }),
        who: fc.nat(),
        body: bodyOf(name),
      })
      const before = await site.dump()
      const companies = await site.stores.log.companies()
      await fc.assert(
        fc.asyncProperty(arbitrary, async ({ segments, query, headers, who, body }) => {
          const filled = parts.map((part, i) => (part.startsWith(':') ? segments[i] : part)).join('/')
          const url = new URL(`http://house.test${filled}`)
          for (const [key, text] of Object.entries(query)) url.searchParams.append(key, text.toWellFormed())
          const cookie = cookies[who % cookies.length]!
          const sent = typeof body === 'string' ? body : new Blob([body.slice()])
          await answered(
            new Request(url, {
              method,
              headers: { ...(cookie ? { cookie } : {}), ...headers },
              ...(method === 'GET' ? {} : { body: sent }),
            }),
          )
        }),
        { numRuns: RUNS, seed: SEED },
      )
      // An empty push with a head of its own is the only thing that could have been taken here, and it adds no entry.
      expect(JSON.parse(await site.dump()).leaves).toEqual(JSON.parse(before).leaves)
      expect(await site.stores.log.companies()).toEqual(companies)
    })
})

const plain = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 20 }).map((text) => text.toWellFormed()),
  fc.integer(),
  fc.constantFrom<unknown>(
    {},
    [],
    { is: 'none' },
    { is: 'given' },
    JOB,
    'load.arrived',
    'entry.withdrawn',
    0,
    2,
  ),
)

/** Members that make an entry one of somebody, or somewhere, else; what they stand for is known only at run time. */
const FOREIGN: Readonly<Record<string, () => Record<string, unknown>>> = {
  'another device': () => ({ device: site.owner.identity.device }),
  'another person': () => ({ by: { known: 'own-device', person: site.owner.identity.person } }),
  'the company’s thread': () => ({ job: site.company }),
  'an id that is taken': () => ({ id: JOB }),
  'a kind for owners': () => ({
    job: site.company,
    kind: 'role.changed',
    body: { person: beto.identity.person, role: 'owner' },
  }),
  'the server’s word': () => ({
    kind: 'photo.received',
    body: { photo: 'ab'.repeat(32), bytes: 9 },
    by: { known: 'server' },
    source: 'server',
  }),
}

/** What may never be kept from Beto's phone, said apart from the code that decides it. */
const mayStand = (text: string): boolean => {
  const { device, by, job, kind } = JSON.parse(text) as Record<string, unknown>
  const mine = device === beto.identity.device && (by as { person?: string }).person === beto.identity.person
  return mine && job !== site.company && kind !== 'photo.received'
}

test('[fuzz] signed pushes of mutated entries: each entry is kept or refused by a code, and only what was kept is there', async () => {
  const device = beto.identity.device
  const before: string[] = []
  const members = fc.constantFrom(
    'v',
    'id',
    'job',
    'kind',
    'body',
    'occurredAt',
    'recordedAt',
    'boot',
    'mono',
    'device',
    'by',
    'source',
    'evidence',
    'corrects',
    'why',
    'more',
  )
  const entry = fc.oneof(
    { weight: 4, arbitrary: fc.dictionary(members, plain, { maxKeys: 2 }) },
    { weight: 3, arbitrary: fc.constantFrom(...Object.keys(FOREIGN)).map((foreign) => ({ foreign })) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 30 }).map((text) => text.toWellFormed()) },
    { weight: 1, arbitrary: fc.jsonValue().map((v) => JSON.stringify(v).toWellFormed()) },
  )
  await fc.assert(
    fc.asyncProperty(fc.array(entry, { maxLength: 5 }), async (list) => {
      const texts = list.map((e) => {
        if (typeof e === 'string') return e
        return entryText(site, beto, 'foreign' in e ? FOREIGN[String(e.foreign)]!() : e)
      })
      const size = await site.size()
      const body = JSON.stringify(await signedPush(beto, { before, entries: texts }))
      const headers = { cookie: beto.cookie(), 'content-type': 'application/json' }
      const answer = await site.send(
        new Request('http://house.test/api/push', { method: 'POST', headers, body }),
      )
      expect(site.reports.splice(0).map(String)).toEqual([])
      expect(answer.status).toBe(200)
      before.push(...texts)
      const { verdicts } = (await answer.json()) as {
        verdicts: { is: string; code?: string; position?: number }[]
      }
      expect(verdicts.length).toBe(texts.length)
      for (const [i, text] of texts.entries())
        if (verdicts[i]!.is === 'kept') expect(mayStand(text), text).toBe(true)
      for (const verdict of verdicts)
        if (verdict.is === 'refused') expect(isProblemCode(verdict.code!)).toBe(true)
        else expect(['kept', 'waits-for-server']).toContain(verdict.is)
      const { leaves } = await site.stores.log.page(site.company, size, 99)
      const grown = leaves.filter((leaf) => leaf.position >= size)
      const kept = new Set(
        verdicts.flatMap((v) => (v.is === 'kept' && v.position! >= size ? [v.position!] : [])),
      )
      for (const leaf of grown) expect(kept.has(leaf.position) || leaf.kind === 'entry.refused').toBe(true)
    }),
    { numRuns: RUNS, seed: SEED },
  )
  const ids = (await site.stores.log.page(site.company, 0, 9_999)).leaves.map((leaf) => leaf.id)
  expect(new Set(ids).size).toBe(ids.length)
  const stored = await site.stores.log.deviceLeaves(site.company, device, 1, 9_999)
  expect(stored.length).toBe(before.length)
})

test('[fuzz] a push with any one byte of it changed is never taken as something else', async () => {
  const fresh = await openSite({ seed: 22 })
  const by = await fresh.hire('Beto', 'crew')
  const text = entryText(fresh, by, {})
  const whole = new TextEncoder().encode(JSON.stringify(await signedPush(by, { entries: [text] })))
  await fc.assert(
    fc.asyncProperty(fc.nat(whole.length - 1), fc.integer({ min: 1, max: 255 }), async (at, change) => {
      const before = await fresh.size()
      const body = new Blob([whole.with(at, whole[at]! ^ change)])
      const headers = { cookie: by.cookie() }
      const answer = await fresh.send(
        new Request('http://house.test/api/push', { method: 'POST', headers, body }),
      )
      expect(fresh.reports.splice(0).map(String)).toEqual([])
      // Some bytes change nothing: white space, another spelling of the same character. Then it is the same entry.
      if (answer.status !== 200) expect(await fresh.size()).toBe(before)
      else
        for (const leaf of await fresh.stores.log.thread(fresh.company, JOB))
          expect(leaf.entryHash).toBe(toHex(sha256(new Uint8Array([0, ...new TextEncoder().encode(text)]))))
    }),
    { numRuns: 300, seed: SEED },
  )
  expect(canonicalJson(JSON.parse(text))).toBe(text)
})

test('[fuzz] names of any letters set a company up whole, or not at all and the code stays good', async () => {
  const letters = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 130 }),
    fc.string({ unit: fc.constantFrom('\ud800', '\udfff', '\u0000', '\n', 'ñ', '😀'), maxLength: 3 }),
  )
  const zones = fc.oneof(letters, fc.constantFrom('UTC', 'America/Chicago', '+05:00', 'utc'))
  await fc.assert(
    fc.asyncProperty(letters, letters, zones, async (company, owner, zone) => {
      const { house, stores } = site
      const code = `code-${site.newId()}`
      const expiresAt = site.now() + 60_000
      const none = { company: undefined, person: undefined, use: undefined }
      await stores.accounts.putCode({
        codeHash: secretHash(code, house.world),
        purpose: 'set-up',
        ...none,
        expiresAt,
      })
      const before = await stores.log.companies()
      const key = toBase64(new Uint8Array(32).fill(5))
      const body = JSON.stringify({ code, company, owner, zone, key, use: 'phone' })
      const status = async () =>
        (await site.send(new Request('http://house.test/api/set-up', { method: 'POST', body }))).status
      const first = await status()
      expect([200, 400]).toContain(first)
      expect(await status()).toBe(first)
      expect(site.reports.splice(0).map(String)).toEqual([])
      const made = (await stores.log.companies()).filter((one) => !before.includes(one))
      expect(made.length).toBe(first === 200 ? 1 : 0)
      if (made[0]) expect((await stores.log.company(made[0]))!.frontier.size).toBe(4)
    }),
    { numRuns: RUNS, seed: SEED },
  )
})
