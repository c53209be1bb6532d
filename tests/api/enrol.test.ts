import { describe, expect, test } from 'vitest'
import type { Enrolled } from '../../api/contract/messages/enrol.ts'
import { sessionText } from '../../api/contract/messages/session.ts'
import type { HashedEntry } from '../../api/domain/entry/read.ts'
import { readEntry } from '../../api/domain/entry/read.ts'
import { readBase64, toBase64, toUtf8 } from '../../api/domain/log/encoding.ts'
import { readVerifierKey } from '../../api/domain/log/note.ts'
import { signingKey } from '../../api/server/keys.ts'
import { sha256, verifySignature } from '../../api/server/senses.ts'
import { CommitUnknown } from '../../db/log-store/log-store.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody, signIn } from '../../web/sync/sign-in.ts'
import type { WireAnswer } from '../../web/sync/wire.ts'
import { createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'
import { createWire, ZONE } from '../kit/phone.ts'
import { JOB, jsonOf, LOAD, openSite, type Person, problemOf, type Site, START, textOf } from './site.ts'

const keyOf = (fill: number): string => toBase64(signingKey(new Uint8Array(32).fill(fill)).publicKey)

/** A house that nobody has set up yet. */
const openEmpty = async (stores = createMemoryStore()) => {
  const chance = createChance(5)
  let time = START
  const now = () => ++time
  const reports: unknown[] = []
  const house = await openHouse({ chance, now, stores, report: (error) => reports.push(error) })
  const wire = createWire(async (request) => house.app.fetch(request))
  const post = (path: string, body: unknown): Promise<WireAnswer> =>
    wire({ method: 'POST', path, ...jsonBody(body) })
  const setUp = (code: string, more: Record<string, unknown> = {}) =>
    post('/api/set-up', {
      code,
      company: 'Brindlefork Flatwork',
      zone: ZONE,
      owner: 'Curt',
      key: keyOf(1),
      use: 'phone',
      ...more,
    })
  const later = (ms: number) => {
    time += ms
  }
  return { house, stores, post, setUp, later, reports, code: await house.setUpCode() }
}

describe('[set-up] a set-up code makes one company', () => {
  test('[L28–L30] the log begins with the company, the server’s device, the owner and the first device', async () => {
    const { setUp, code, stores } = await openEmpty()
    const enrolled = jsonOf(await setUp(code)) as Enrolled
    const { leaves } = await stores.log.page(enrolled.company, 0, 9)
    const entries = leaves.map((leaf) => {
      const read = readEntry(leaf.bytes!, sha256)
      if (!read.ok || !('entry' in read.value)) throw new Error('not read')
      return (read.value satisfies HashedEntry).entry
    })
    const logKey = readVerifierKey(enrolled.logKey, sha256)
    if (!logKey.ok) throw new Error('not a key')
    expect(logKey.value.name).toBe(enrolled.origin)
    expect(enrolled).toMatchObject({ origin: `screedbook/${enrolled.company}`, name: 'Curt', zone: ZONE })
    const server = entries[0]!.device
    expect(entries.map(({ kind, body }) => ({ kind, body }))).toEqual([
      {
        kind: 'company.founded',
        body: {
          name: 'Brindlefork Flatwork',
          zone: ZONE,
          origin: enrolled.origin,
          logKey: toBase64(logKey.value.publicKey),
        },
      },
      { kind: 'device.enrolled', body: { device: server, key: expect.any(String), use: 'server' } },
      { kind: 'owner.named', body: { person: enrolled.person, name: 'Curt' } },
      {
        kind: 'device.enrolled',
        body: { device: enrolled.device, person: enrolled.person, key: keyOf(1), use: 'phone' },
      },
    ])
    for (const entry of entries)
      expect(entry).toMatchObject({ job: enrolled.company, device: server, by: { known: 'server' } })
    const [, device] = entries
    const deviceKey = device?.kind === 'device.enrolled' ? device.body.key : ''
    expect(deviceKey).not.toBe(toBase64(logKey.value.publicKey))
    // The server's own head is over these four, by that key.
    const [head] = (await stores.log.heads(enrolled.company)).filter((h) => h.device === server)
    expect(head).toMatchObject({ size: 4, epoch: 1 })
    const [text, signatures] = head!.note.split('\n\n')
    const signature = readBase64(signatures!.trim().split(' ').at(-1)!)!.slice(4)
    expect(await verifySignature(readBase64(deviceKey)!, toUtf8(`${text}\n`), signature)).toBe(true)
  })

  test('[set-up] twenty uses at once, each with its own key: one company, and the others are told', async () => {
    const { setUp, code, stores } = await openEmpty()
    const keys = Array.from({ length: 20 }, (_, i) => keyOf(i + 1))
    const use = () => Promise.all(keys.map((key) => setUp(code, { key })))
    const first = await use()
    expect(first.filter((answer) => answer.status === 200).length).toBe(1)
    // Those who lost the race come again.
    const again = await use()
    expect(again.map((answer) => answer.status)).toEqual(first.map((answer) => answer.status))
    for (const answer of again.filter((a) => a.status !== 200))
      expect(problemOf(answer).code).toBe('code-used')
    const companies = await stores.log.companies()
    expect(companies.length).toBe(1)
    expect((await stores.log.company(companies[0]!))!.frontier.size).toBe(4)
  })

  test('[set-up] twenty uses at once with one key are one enrolment', async () => {
    const { setUp, code, stores } = await openEmpty()
    const answers = await Promise.all(Array.from({ length: 20 }, () => setUp(code)))
    const texts = new Set(answers.map(textOf))
    expect(texts.size).toBe(1)
    expect(answers.every((answer) => answer.status === 200)).toBe(true)
    expect((await stores.log.companies()).length).toBe(1)
  })

  test('[set-up] an answer that was lost can be asked for again with the same code and key, and no other', async () => {
    const { setUp, code, later, stores } = await openEmpty()
    const first = textOf(await setUp(code))
    later(3600_000)
    expect(textOf(await setUp(code, { company: 'Another name', owner: 'Lou' }))).toBe(first)
    expect(problemOf(await setUp(code, { key: keyOf(2) })).code).toBe('code-used')
    expect((await stores.log.companies()).length).toBe(1)
  })

  for (const point of ['before-commit', 'after-commit'] as const)
    test(`[set-up] a server that failed ${point} can be asked again with the same code and key`, async () => {
      let failing = true
      const stores = createMemoryStore({
        fault: (at) => {
          if (!failing || at !== point) return
          failing = false
          throw point === 'after-commit' ? new CommitUnknown('cut') : new Error('the disk is full')
        },
      })
      const { setUp, code } = await openEmpty(stores)
      const first = await setUp(code)
      expect(first.status).toBe(point === 'after-commit' ? 200 : 503)
      expect((await setUp(code)).status).toBe(200)
      expect((await stores.log.companies()).length).toBe(1)
    })

  test('[set-up] looking does not use the code up; used, wrong and old codes look the same', async () => {
    const { setUp, code, post, later } = await openEmpty()
    const look = (given: string) => post('/api/set-up/look', { code: given })
    for (let i = 0; i < 3; i++) expect(jsonOf(await look(code))).toEqual({ purpose: 'set-up' })
    const wrong = textOf(await look('nobody-made-this-code'))
    expect((await setUp(code)).status).toBe(200)
    expect(textOf(await look(code))).toBe(wrong)
    const second = await openEmpty()
    later(24 * 3600_000)
    second.later(24 * 3600_000)
    expect(textOf(await second.post('/api/set-up/look', { code: second.code }))).toBe(wrong)
    expect(problemOf(await second.setUp(second.code)).code).toBe('code-used')
    expect(await second.stores.log.companies()).toEqual([])
  })

  test('[set-up] a set-up code is no join code, and the other way round', async () => {
    const { code, post } = await openEmpty()
    expect(problemOf(await post('/api/join/look', { code })).code).toBe('code-used')
    expect(problemOf(await post('/api/join', { code, key: keyOf(2) })).code).toBe('code-used')
  })

  test('[set-up] names that no entry can hold are refused before anything is made', async () => {
    const { setUp, code, stores, reports } = await openEmpty()
    const wrong: readonly Record<string, unknown>[] = [
      { company: '' },
      { company: 'x'.repeat(121) },
      { company: 'half a \ud83d' },
      { owner: 'Curt\u0000' },
      { zone: 'Nowhere/Flat' },
      { zone: '+05:00' },
      { zone: '2026-01-01T00:00[America/Chicago]' },
      { key: keyOf(1).slice(0, -4) },
      { use: 'server' },
    ]
    for (const more of wrong) {
      const problem = problemOf(await setUp(code, more))
      expect(problem, JSON.stringify(more)).toMatchObject({ code: 'request-malformed' })
      expect(problem.errors).toEqual([{ pointer: `/${Object.keys(more)[0]}` }])
    }
    expect(await stores.log.companies()).toEqual([])
    expect(reports).toEqual([])
  })
})

describe('[join] a join code enrols one device of the person it was made for', () => {
  const invitation = async () => {
    const site = await openSite({ seed: 6 })
    const person = site.newId()
    await site.owner.phone.log(site.company, 'person.added', { person, name: 'Marisol', role: 'foreman' })
    await syncRound(site.owner.phone)
    const code = await site.inviteCode(person)
    const post = (path: string, body: unknown) =>
      createWire(site.send)({ method: 'POST', path, ...jsonBody(body) })
    const join = (key: string) => post('/api/join', { code, key })
    return { site, person, code, post, join }
  }

  test('[join] twenty keys at once: one device, and the others are told, also when they come again', async () => {
    const { site, join } = await invitation()
    const before = await site.size()
    const keys = Array.from({ length: 20 }, (_, i) => keyOf(i + 1))
    const first = await Promise.all(keys.map(join))
    const again = await Promise.all(keys.map(join))
    expect(first.filter((answer) => answer.status === 200).length).toBe(1)
    expect(again.map(textOf)).toEqual(first.map(textOf))
    expect(await site.size()).toBe(before + 1)
  })

  test('[join] an answer that was lost can be asked for again with the same code and key, and no other', async () => {
    const { site, person, join, post, code } = await invitation()
    expect(jsonOf(await post('/api/join/look', { code }))).toEqual({
      purpose: 'join',
      company: 'Brindlefork Flatwork',
      person: 'Marisol',
    })
    const first = await join(keyOf(1))
    expect(jsonOf(first)).toMatchObject({ company: site.company, person, name: 'Marisol', zone: ZONE })
    expect(textOf(await join(keyOf(1)))).toBe(textOf(first))
    expect(problemOf(await join(keyOf(2))).code).toBe('code-used')
    expect(problemOf(await post('/api/join/look', { code })).code).toBe('code-used')
  })

  test('[join] a code of yesterday enrols nobody', async () => {
    const { site, join } = await invitation()
    const before = await site.dump()
    site.later(24 * 3600_000)
    expect(problemOf(await join(keyOf(1))).code).toBe('code-used')
    expect(await site.dump()).toBe(before)
  })

  test('[join] the device has the use that the invitation names, also when it is asked for again', async () => {
    const { site, person } = await invitation()
    const answer = await site.owner.phone.wire({
      method: 'POST',
      path: '/api/invite',
      ...jsonBody({ person, use: 'office' }),
    })
    const { code } = jsonOf(answer) as { code: string }
    for (let i = 0; i < 2; i++)
      await site.nobody({ method: 'POST', path: '/api/join', ...jsonBody({ code, key: keyOf(3) }) })
    const last = (await site.stores.log.thread(site.company, site.company)).at(-1)!
    expect(JSON.parse(new TextDecoder().decode(last.bytes)).body).toMatchObject({ person, use: 'office' })
  })

  test('[access] a foreman may not invite for an owner, and nobody for a person who is not there', async () => {
    const { site, join, person } = await invitation()
    const key = signingKey(new Uint8Array(32).fill(1))
    expect((await join(toBase64(key.publicKey))).status).toBe(200)
    const marisol = await site.hire('Marisol', 'foreman')
    const invite = (by: Person, whom: string) =>
      by.phone.wire({ method: 'POST', path: '/api/invite', ...jsonBody({ person: whom, use: 'phone' }) })
    expect(problemOf(await invite(marisol, site.owner.identity.person)).code).toBe('not-allowed')
    expect((await invite(marisol, person)).status).toBe(200)
    expect((await invite(site.owner, site.owner.identity.person)).status).toBe(200)
    expect(problemOf(await invite(site.owner, JOB))).toMatchObject({
      code: 'not-found',
      errors: [{ pointer: '/person' }],
    })
  })
})

describe('[session] whoever signs the challenge with an enrolled device’s key gets a session', () => {
  const nonceOf = async (site: Site): Promise<string> => {
    const answer = await site.nobody({ method: 'POST', path: '/api/session/challenge', ...jsonBody({}) })
    return (jsonOf(answer) as { nonce: string }).nonce
  }
  const signed = async (
    site: Site,
    by: Person,
    more: { nonce?: string; company?: string; text?: string } = {},
  ) => {
    const { identity, phone } = by
    const company = more.company ?? identity.company
    const nonce = more.nonce ?? (await nonceOf(site))
    const text = more.text ?? sessionText(company, identity.device, nonce)
    return { company, device: identity.device, nonce, signature: toBase64(await phone.sign(toUtf8(text))) }
  }
  const ask = (site: Site, body: unknown) =>
    site.send(
      new Request('http://house.test/api/session', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }),
    )

  test('[session] the cookie is for the same site, for the server alone, and secure where the wire is', async () => {
    const site = await openSite()
    const answer = await ask(site, await signed(site, site.owner))
    expect(answer.status).toBe(200)
    const [plain] = answer.headers.getSetCookie()
    expect(plain).toMatch(
      /^screedbook_session=[A-Za-z0-9_-]{22}; Max-Age=2592000; Path=\/; HttpOnly; SameSite=Strict$/,
    )
    const body = JSON.stringify(await signed(site, site.owner))
    for (const [url, headers] of [
      ['https://house.test/api/session', {}],
      ['http://house.test/api/session', { 'x-forwarded-proto': 'https' }],
    ] as const) {
      const safe = await site.send(
        new Request(url, { method: 'POST', headers, body: JSON.stringify(await signed(site, site.owner)) }),
      )
      expect(safe.headers.getSetCookie()[0]).toContain('; Secure')
    }
    expect(body).not.toContain(plain!.slice(20, 40))
  })

  test('[session] every failure reads the same', async () => {
    const site = await openSite()
    const lou = await site.found('Heron Creek Slabs', 'Lou')
    const spent = await signed(site, site.owner)
    expect((await ask(site, spent)).status).toBe(200)
    const old = await signed(site, site.owner)
    site.later(5 * 60_000)
    const stranger = { ...lou, identity: site.owner.identity }
    const tries: readonly [string, unknown][] = [
      ['a nonce that was used', spent],
      ['a nonce of ten minutes ago', old],
      ['a nonce of nobody’s', await signed(site, site.owner, { nonce: 'AAAAAAAAAAAAAAAAAAAAAA' })],
      ['another key', await signed(site, stranger)],
      ['another text', await signed(site, site.owner, { text: 'screedbook-session/v1\n' })],
      ['a device of another company', await signed(site, lou, { company: site.company })],
      ['no such company', await signed(site, site.owner, { company: JOB })],
      ['no company', await signed(site, site.owner, { company: "'; --" })],
      ['no such device', { ...(await signed(site, site.owner)), device: LOAD }],
      ['a signature out of form', { ...(await signed(site, site.owner)), signature: '=' }],
    ]
    const answers = []
    for (const [name, body] of tries) {
      const answer = await ask(site, body)
      expect(answer.headers.getSetCookie(), name).toEqual([])
      answers.push({ status: answer.status, headers: [...answer.headers], body: await answer.text() })
    }
    expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(1)
    expect(answers[0]).toMatchObject({ status: 401 })
    expect(JSON.parse(answers[0]!.body)).toMatchObject({ code: 'not-signed-in' })
  })

  test('[session] a wrong signature uses the challenge up', async () => {
    const site = await openSite()
    const right = await signed(site, site.owner)
    expect((await ask(site, { ...right, signature: toBase64(new Uint8Array(64)) })).status).toBe(401)
    expect((await ask(site, right)).status).toBe(401)
  })

  test('[session] a phone whose session is past signs in by its key and goes on', async () => {
    const site = await openSite()
    site.later(31 * 24 * 3600_000)
    await site.owner.phone.log(JOB, 'load.arrived', { load: LOAD })
    expect((await site.owner.phone.wire({ method: 'GET', path: '/api/jobs' })).status).toBe(401)
    expect(await syncRound(site.owner.phone)).toMatchObject({ is: 'synced', push: { is: 'pushed' } })
  })

  test('[session] a withdrawn device’s session stands as withdrawn at once, and so does a new one', async () => {
    const site = await openSite()
    const beto = await site.hire('Beto', 'crew')
    const jobs = () => beto.phone.wire({ method: 'GET', path: '/api/jobs' })
    expect((await jobs()).status).toBe(200)
    await site.owner.phone.log(site.company, 'device.withdrawn', { device: beto.identity.device })
    await syncRound(site.owner.phone)
    expect(problemOf(await jobs()).code).toBe('not-allowed')
    expect(await signIn(beto.phone)).toBe(true)
    expect(problemOf(await jobs()).code).toBe('not-allowed')
  })

  test('[session] a role that was changed holds from the next request on', async () => {
    const site = await openSite()
    const beto = await site.hire('Beto', 'crew')
    const record = () => beto.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}/record.zip` })
    expect((await record()).status).toBe(403)
    const { person } = beto.identity
    await site.owner.phone.log(site.company, 'role.changed', { person, role: 'office' })
    await syncRound(site.owner.phone)
    expect((await record()).status).toBe(404)
  })
})

describe('[cross-site] what another site tells a browser to do here is refused', () => {
  const CASES: readonly [Record<string, string>, boolean][] = [
    [{ 'sec-fetch-site': 'cross-site' }, false],
    [{ 'sec-fetch-site': 'same-site' }, false],
    [{ 'sec-fetch-site': 'same-origin' }, true],
    [{ 'sec-fetch-site': 'none' }, true],
    [{ origin: 'http://elsewhere.test', host: 'house.test' }, false],
    [{ origin: 'null', host: 'house.test' }, false],
    [{ origin: 'http://house.test', host: 'house.test' }, true],
    [{}, true],
  ]
  test('[cross-site] by what the browser says of where the request came from', async () => {
    const site = await openSite()
    for (const method of ['POST', 'PUT'] as const)
      for (const [headers, taken] of CASES) {
        const path = method === 'POST' ? '/api/push' : `/api/photos/${'ab'.repeat(32)}`
        const cookie = site.owner.cookie()
        const before = await site.dump()
        const answer = await site.house.app.request(path, {
          method,
          headers: { cookie, ...headers },
          body: '{}',
        })
        const { code } = (await answer.json()) as { code: string }
        expect(code === 'cross-site', JSON.stringify(headers)).toBe(!taken)
        expect(await site.dump()).toBe(before)
      }
  })
})
