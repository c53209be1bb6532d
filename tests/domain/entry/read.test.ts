import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Happening, makeEntry, uuidV7 } from '../../../api/domain/entry/make.ts'
import { hashEntry, isUnread, readEntry } from '../../../api/domain/entry/read.ts'
import { KINDS, type Kind, VOCABULARY } from '../../../api/domain/entry/registry.ts'
import { canonicalJson, MAX_ENTRY_BYTES } from '../../../api/domain/log/bytes.ts'
import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { random, sha256 } from '../../../api/server/senses.ts'
import { anyBody, anyHash, anyTime, anyUuid, anyWords } from '../../kit/any-body.ts'

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
    const bytes = toUtf8(canonicalJson({ ...REMARK, v: VOCABULARY + 1 }))
    const later = readEntry(bytes, sha256, VOCABULARY + 1)
    expect(later.ok && !isUnread(later.value) && later.value.entry.kind).toBe('remark.made')
  })
  test('[L3, L4] but not where its bytes are out of form', () => {
    expect(readEntry(toUtf8('{"v": 2}'), sha256)).toMatchObject({ problem: { code: 'entry-not-canonical' } })
    const large = toUtf8(canonicalJson({ v: VOCABULARY + 1, x: 'x'.repeat(MAX_ENTRY_BYTES) }))
    expect(readEntry(large, sha256)).toMatchObject({ problem: { code: 'entry-too-large' } })
  })
})

describe('[entry] what is made is what is read', () => {
  for (const kind of Object.keys(KINDS) as Kind[])
    test(`[entry] ${kind}: body, times, maker and corrections come back as they went in`, () => {
      const server = KINDS[kind].maker === 'server'
      const all = fc.record({
        body: anyBody(kind),
        job: anyUuid,
        at: anyTime,
        recordedAt: anyTime,
        mono: fc.double({ min: 0, max: 1e12, noNaN: true }),
        corrects: fc.array(anyHash, { minLength: kind === 'entry.withdrawn' ? 1 : 0, maxLength: 4 }),
        why: fc.record({ lang: fc.constantFrom('en', 'es', 'es-US'), text: anyWords(60) }),
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
              v: expect.any(Number),
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
