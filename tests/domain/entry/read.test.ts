import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Happening, makeEntry, uuidV7 } from '../../../api/domain/entry/make.ts'
import { hashEntry, isUnread, readEntry } from '../../../api/domain/entry/read.ts'
import { type BodyOf, KINDS, type Kind, VOCABULARY } from '../../../api/domain/entry/registry.ts'
import { canonicalJson, MAX_ENTRY_BYTES } from '../../../api/domain/log/bytes.ts'
import { toBase64, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { random, sha256 } from '../../../api/server/senses.ts'

const UUID = '019db000-0000-7000-8000-0000000000c0'
const [A, B] = ['ab'.repeat(32), 'cd'.repeat(32)]

/** A remark as a phone makes it. */
const REMARK: Readonly<Record<string, unknown>> = {
  v: 1,
  id: '019db000-0000-7000-8000-000000000001',
  job: '019db000-0000-7000-8000-00000000ce11',
  kind: 'remark.made',
  body: { remark: { lang: 'en', text: 'Base was damp' } },
  occurredAt: '2026-04-21T07:05-05:00',
  recordedAt: '2026-04-21T07:06:10.125-05:00',
  boot: UUID,
  mono: 0,
  device: UUID,
  by: { known: 'own-device', person: UUID },
  source: 'tap',
}
const PHOTO = {
  ...REMARK,
  kind: 'photo.taken',
  body: { photo: A, bytes: 9, type: 'image/jpeg', shows: 'ticket' },
  evidence: [A],
}
const RECEIVED = {
  ...REMARK,
  kind: 'photo.received',
  body: { photo: A, bytes: 9 },
  by: { known: 'server' },
  source: 'server',
}
const WITHDRAWN = { ...REMARK, kind: 'entry.withdrawn', body: {}, corrects: [A] }

const read = (members: Readonly<Record<string, unknown>>) => {
  const all = Object.entries(members).filter(([, value]) => value !== undefined)
  const result = readEntry(toUtf8(canonicalJson(Object.fromEntries(all))), sha256)
  return result.ok ? 'read' : `${result.problem.code} ${result.problem.at}`
}

describe('[L6] an entry has the members of the table, in their form, and no others', () => {
  test('[L6] one that has them all is read', () => {
    for (const whole of [REMARK, PHOTO, RECEIVED, WITHDRAWN]) expect(read(whole)).toBe('read')
    expect(read({ ...REMARK, corrects: [A, B], why: { lang: 'es-US', text: 'Lo leí mal' } })).toBe('read')
  })

  for (const member of Object.keys(REMARK).filter((name) => name !== 'v'))
    test(`[L6] without ${member} it is malformed there`, () =>
      expect(read({ ...REMARK, [member]: undefined })).toBe(`entry-malformed /${member}`))

  const WRONG: readonly [string, Readonly<Record<string, unknown>>, string][] = [
    ['no v', { v: undefined }, '/v'],
    ['v 0', { v: 0 }, '/v'],
    ['v as text', { v: '1' }, '/v'],
    ['a member too many', { place: 3 }, '/place'],
    ['an id of another version', { id: '019db000-0000-4000-8000-000000000001' }, '/id'],
    ['an id of another variant', { id: '019db000-0000-7000-c000-000000000001' }, '/id'],
    ['an id in upper case', { id: '019DB000-0000-7000-8000-000000000001' }, '/id'],
    ['an id with braces', { id: '{019db000-0000-7000-8000-000000000001}' }, '/id'],
    ['a job that is a name', { job: 'Tern Court' }, '/job'],
    ['a time without offset', { occurredAt: '2026-04-21T07:05' }, '/occurredAt'],
    ['a time in UTC by letter', { recordedAt: '2026-04-21T12:05Z' }, '/recordedAt'],
    ['a day that is not', { occurredAt: '2026-02-30T07:05-06:00' }, '/occurredAt'],
    ['mono below 0', { mono: -1 }, '/mono'],
    ['nobody', { by: {} }, '/by'],
    ['a source of its own', { source: 'guess' }, '/source'],
    ['empty evidence', { evidence: [] }, '/evidence'],
    ['evidence that is no hash', { evidence: ['x'] }, '/evidence/0'],
    ['empty corrects', { corrects: [] }, '/corrects'],
    ['corrects out of order', { corrects: [B, A] }, '/corrects'],
    ['corrects with a repeat', { corrects: [A, A] }, '/corrects'],
    ['corrects in upper case', { corrects: [A.toUpperCase()] }, '/corrects/0'],
    ['why without corrects', { why: { lang: 'en', text: 'misread' } }, '/why'],
    ['why without words', { corrects: [A], why: { lang: 'en', text: '' } }, '/why/text'],
    ['why in no language', { corrects: [A], why: { lang: 'English', text: 'x' } }, '/why/lang'],
    ['a body member too many', { body: { remark: { lang: 'en', text: 'x' }, place: 3 } }, '/body/place'],
    ['a body that is a list', { body: [] }, '/body'],
    ['a control character', { body: { remark: { lang: 'en', text: 'bell \u0007' } } }, '/body/remark/text'],
  ]
  for (const [name, edit, at] of WRONG)
    test(`[L6] ${name} is malformed at ${at}`, () =>
      expect(read({ ...REMARK, ...edit })).toBe(`entry-malformed ${at}`))

  test('[L6] the order of evidence is free', () => {
    expect(read({ ...PHOTO, evidence: [B, A] })).toBe('read')
  })

  test('[L5] an entry’s name is SHA-256 of a zero byte and its bytes', () => {
    const bytes = toUtf8(canonicalJson(REMARK))
    expect(hashEntry(bytes, sha256)).toBe(Buffer.from(sha256(new Uint8Array([0, ...bytes]))).toString('hex'))
  })
})

describe('[L6, L8, L53] rules across members', () => {
  test('[L8] a withdrawal names what it takes back, and has an empty body', () => {
    expect(read({ ...WITHDRAWN, corrects: undefined })).toBe('entry-malformed /corrects')
    expect(read({ ...WITHDRAWN, body: { why: 'x' } })).toBe('entry-malformed /body/why')
  })
  test('[L53] a photo stands in its entry’s evidence too', () => {
    expect(read({ ...PHOTO, evidence: undefined })).toBe('entry-malformed /evidence')
    expect(read({ ...PHOTO, evidence: [B] })).toBe('entry-malformed /evidence')
  })
  test('[L50] the server’s kinds are by the server and from it, and no others are', () => {
    expect(read({ ...RECEIVED, by: REMARK.by })).toBe('entry-malformed /by')
    expect(read({ ...RECEIVED, source: 'tap' })).toBe('entry-malformed /source')
    expect(read({ ...REMARK, by: { known: 'server' } })).toBe('entry-malformed /by')
    expect(read({ ...REMARK, source: 'server' })).toBe('entry-malformed /source')
    expect(read({ ...RECEIVED, by: { known: 'server', person: UUID } })).toMatch(/^entry-malformed \/by/)
  })
  test('[L50] a kind that this release does not know is unknown, not malformed', () => {
    for (const kind of ['load.tasted', 'toString', '__proto__', 'constructor'])
      expect(read({ ...REMARK, kind })).toBe('kind-unknown /kind')
  })
})

describe('[L9] an entry of a later release is kept unread', () => {
  test('[L9] whatever else is in it', () => {
    for (const members of [REMARK, { kind: 7 }, {}]) {
      const bytes = toUtf8(canonicalJson({ ...members, v: VOCABULARY + 1 }))
      expect(readEntry(bytes, sha256)).toEqual({
        ok: true,
        value: { hash: hashEntry(bytes, sha256), newer: VOCABULARY + 1 },
      })
    }
  })
  test('[L9] and is read once the reader has learnt its release', () => {
    const bytes = toUtf8(canonicalJson({ ...REMARK, v: 2 }))
    const later = readEntry(bytes, sha256, 2)
    expect(later.ok && !isUnread(later.value) && later.value.entry.kind).toBe('remark.made')
  })
  test('[L3, L4] but not where its bytes are out of form', () => {
    expect(readEntry(toUtf8('{"v": 2}'), sha256)).toMatchObject({ problem: { code: 'entry-not-canonical' } })
    const large = toUtf8(canonicalJson({ v: 2, x: 'x'.repeat(MAX_ENTRY_BYTES) }))
    expect(readEntry(large, sha256)).toMatchObject({ problem: { code: 'entry-too-large' } })
  })
})

const uuid = fc
  .uint8Array({ minLength: 16, maxLength: 16 })
  .map((bytes) => uuidV7(1_776_772_800_000, () => bytes))
const hash = fc.stringMatching(/^[0-9a-f]{64}$/)
const key = fc.uint8Array({ minLength: 32, maxLength: 32 }).map(toBase64)
const words = fc
  .string({ unit: 'binary', minLength: 1, maxLength: 60 })
  .filter((text) => text.isWellFormed() && text.length <= 60 && !/[^\P{Cc}\n]/u.test(text))
const time = fc
  .tuple(fc.integer({ min: 0, max: 4_000_000_000_000 }), fc.constantFrom('-05:00', '+00:00', '+05:30'))
  .map(([ms, offset]) => `${new Date(ms).toISOString().slice(0, 23)}${offset}`)
const is = <T extends string>(...all: readonly T[]) => fc.constantFrom(...all.map((one) => ({ is: one })))
const text = fc.constantFrom('0', '4.25', '4 1/4', '3/8', '0000001.000001')
const quantity = <U extends string>(...units: readonly U[]) =>
  fc.record({ is: fc.constant('given' as const), text, unit: fc.constantFrom(...units) })
const spoken = fc.record({ lang: fc.constantFrom('en', 'es', 'es-US'), text: words })
const role = fc.constantFrom('owner', 'foreman', 'crew', 'office')
const zone = fc.constantFrom('America/Chicago', 'UTC', 'Etc/GMT+6')
const one = fc.record({ load: uuid })
const code = fc.constantFrom('id-taken', 'entry-malformed')

/** Any body of each kind. The compiler asks for the missing one. */
const BODIES: { readonly [K in Kind]: fc.Arbitrary<BodyOf<K>> } = {
  'company.founded': fc.record({ name: words, zone, origin: words, logKey: key }),
  'owner.named': fc.record({ person: uuid, name: words }),
  'person.added': fc.record({ person: uuid, name: words, role }) as fc.Arbitrary<BodyOf<'person.added'>>,
  'role.changed': fc.record({ person: uuid, role }) as fc.Arbitrary<BodyOf<'role.changed'>>,
  'device.enrolled': fc.oneof(
    fc.record({ device: uuid, person: uuid, key, use: fc.constantFrom('phone' as const, 'office' as const) }),
    fc.record({ device: uuid, key, use: fc.constant('server' as const) }),
  ),
  'device.withdrawn': fc.record({ device: uuid }),
  'entry.refused': fc.record({ hash, device: uuid, code }),
  'job.opened': fc.record({ name: words, zone }),
  'concrete.ordered': fc.record({ yards: quantity('yd3', 'm3') }),
  'ticket.recorded': fc.record({
    load: uuid,
    number: fc.oneof(fc.constant({ is: 'given' as const, text: '71340' }), is('not-stated')),
    truck: fc.oneof(fc.constant({ is: 'given' as const, text: '14-B' }), is('not-stated')),
    yards: fc.oneof(quantity('yd3', 'm3'), is('not-stated')),
    batchedAt: fc.oneof(fc.record({ is: fc.constant('given' as const), at: time }), is('not-stated')),
    limit: fc.oneof(
      fc.record({
        is: fc.constant('given' as const),
        text: fc.constantFrom('1', '90', '240'),
        unit: fc.constant('min' as const),
        to: fc.constantFrom('discharge-started' as const, 'discharge-ended' as const),
      }),
      is('not-stated'),
    ),
  }),
  'load.arrived': one,
  'discharge.started': one,
  'discharge.ended': one,
  'load.left': one,
  'water.added': fc.record({ load: uuid, amount: fc.oneof(quantity('gal', 'L'), is('none', 'not-sure')) }),
  'slump.measured': fc.oneof(
    fc.record({
      load: uuid,
      slump: quantity('in', 'mm'),
      how: fc.constantFrom('cone' as const, 'by-eye' as const),
    }),
    fc.record({ load: uuid, slump: is('not-taken') }),
  ),
  'photo.taken': fc.record(
    {
      photo: hash,
      bytes: fc.nat(),
      type: fc.constantFrom('image/jpeg' as const, 'image/heic' as const),
      shows: fc.constantFrom('ticket' as const, 'defect' as const),
      load: uuid,
    },
    { requiredKeys: ['photo', 'bytes', 'type', 'shows'] },
  ),
  'photo.received': fc.record({ photo: hash, bytes: fc.nat() }),
  'remark.made': fc.record({ remark: spoken, load: uuid }, { requiredKeys: ['remark'] }),
  'entry.withdrawn': fc.constant({}),
}

describe('[entry] what is made is what is read', () => {
  for (const kind of Object.keys(KINDS) as Kind[])
    test(`[entry] ${kind}: body, times, maker and corrections come back as they went in`, () => {
      const server = KINDS[kind].maker === 'server'
      const all = fc.record({
        body: BODIES[kind] as fc.Arbitrary<BodyOf<Kind>>,
        job: uuid,
        at: time,
        recordedAt: time,
        mono: fc.double({ min: 0, max: 1e12, noNaN: true }),
        corrects: fc.array(hash, { minLength: kind === 'entry.withdrawn' ? 1 : 0, maxLength: 4 }),
        why: spoken,
        known: fc.constantFrom('own-device' as const, 'picked' as const, 'pin' as const, 'passkey' as const),
      })
      fc.assert(
        fc.property(all, ({ body, job, at, recordedAt, mono, corrects, why, known }) => {
          const evidence = 'photo' in body && kind === 'photo.taken' ? [body.photo] : undefined
          const by = server ? ({ known: 'server' } as const) : { known, person: UUID }
          const happening = {
            job,
            kind,
            body,
            occurredAt: at,
            source: server ? 'server' : 'tap',
            corrects,
            ...(evidence ? { evidence } : {}),
            ...(corrects.length > 0 ? { why } : {}),
          } as Happening<Kind>
          const bytes = makeEntry(
            happening,
            { device: UUID, boot: UUID, by },
            { now: Date.parse(at), recordedAt, mono },
            random,
          )
          const back = readEntry(bytes, sha256)
          if (!back.ok || isUnread(back.value)) throw new Error(JSON.stringify(back))
          const named = [...new Set(corrects)].sort()
          expect(back.value).toEqual({
            hash: hashEntry(bytes, sha256),
            entry: {
              v: 1,
              id: expect.any(String),
              job,
              kind,
              body,
              occurredAt: at,
              recordedAt,
              boot: UUID,
              mono: Math.floor(mono),
              device: UUID,
              by,
              source: happening.source,
              ...(evidence ? { evidence } : {}),
              ...(named.length > 0 ? { corrects: named, why } : {}),
            },
          })
        }),
        { numRuns: 25, seed: 71340 },
      )
    })
})

describe('[entry] reading never throws', () => {
  const quietly = (bytes: Uint8Array) => {
    const result = readEntry(bytes, sha256)
    if (!result.ok) expect(result.problem.at).toMatch(/^(?:\/.*)?$/s)
    return result
  }
  test('[entry] on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => void quietly(bytes)),
      { numRuns: 300, seed: 71340 },
    )
  })
  test('[entry] on any JSON, canonical or not', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.boolean(), (value, canonical) => {
        let text = JSON.stringify(value)
        try {
          if (canonical) text = canonicalJson(value)
        } catch {
          // A half character: JSON can say it, the canonical form can't.
        }
        quietly(toUtf8(text))
      }),
      { numRuns: 500, seed: 71340 },
    )
  })
  test('[entry] on an entry with any two members replaced by anything', () => {
    const members = fc.constantFrom(...Object.keys(PHOTO), 'corrects', 'why')
    fc.assert(
      fc.property(fc.dictionary(members, fc.jsonValue(), { maxKeys: 2 }), (edit) => {
        quietly(toUtf8(JSON.stringify({ ...PHOTO, ...edit })))
        const sorted = Object.fromEntries(Object.entries({ ...PHOTO, ...edit }).sort())
        quietly(toUtf8(JSON.stringify(sorted)))
      }),
      { numRuns: 500, seed: 71340 },
    )
  })
})

test('[L6] an id carries its milliseconds in front, so that ids sort by when they were made', () => {
  fc.assert(
    fc.property(fc.nat(2 ** 47), fc.nat(2 ** 47), (a, b) => {
      const [first, second] = [uuidV7(a, random), uuidV7(b, random)]
      expect(Number.parseInt(first.replaceAll('-', '').slice(0, 12), 16)).toBe(a)
      if (a !== b) expect(first < second).toBe(a < b)
    }),
    { seed: 71340 },
  )
})
