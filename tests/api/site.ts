import { invited } from '../../api/contract/messages/enrol.ts'
import { type PushAnswer, pushAnswer } from '../../api/contract/messages/push.ts'
import type { ProblemBody } from '../../api/contract/problems.ts'
import { PROTOCOL_VERSION } from '../../api/contract/version.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { VOCABULARY } from '../../api/domain/entry/registry.ts'
import type { Role } from '../../api/domain/entry/role.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { readCheckpoint } from '../../api/domain/log/checkpoint.ts'
import { deviceOrigin, writeHead } from '../../api/domain/log/device-log.ts'
import { readHex, readUtf8, toBase64, toUtf8 } from '../../api/domain/log/encoding.ts'
import { signNote } from '../../api/domain/log/note.ts'
import { appendAll, EMPTY_FRONTIER, rootOf } from '../../api/domain/log/tree.ts'
import { secretHash } from '../../api/server/middleware/session.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import type { PhotoStore } from '../../api/server/photo/photo-store.ts'
import { sha256 } from '../../api/server/senses.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { getMeta, type Identity } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import type { WireAnswer } from '../../web/sync/wire.ts'
import { createChance } from '../kit/chance.ts'
import { type House, openHouse } from '../kit/house.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'

export const START = Date.UTC(2026, 3, 21, 12, 0, 0)

export type Person = {
  readonly phone: Phone
  readonly identity: Identity
  /** The header that this person's phone sends its session in. */
  readonly cookie: () => string
}
export type Site = Awaited<ReturnType<typeof openSite>>

/** Tells of each call of a store, so that a test can say that none was made. */
const watched = <T extends object>(room: string, store: T, calls: string[]): T =>
  Object.fromEntries(
    Object.entries(store).map(([name, call]) => [
      name,
      (...given: unknown[]) => {
        calls.push(`${room}.${name}`)
        return call(...given)
      },
    ]),
  ) as T

/** Brindlefork Flatwork, just set up: a server in memory and the phone of Curt, its owner. */
export const openSite = async (
  given: {
    readonly seed?: number
    readonly stores?: Stores
    readonly photos?: PhotoStore
    readonly openHouse?: typeof openHouse
  } = {},
) => {
  const chance = createChance(given.seed ?? 1)
  let time = START
  const now = () => ++time
  const calls: string[] = []
  const reports: unknown[] = []
  const plain = given.stores ?? createMemoryStore()
  const stores: Stores = {
    log: watched('log', plain.log, calls),
    accounts: watched('accounts', plain.accounts, calls),
    views: watched('views', plain.views, calls),
  }
  const photos = watched('photos', given.photos ?? createPhotoMemory(sha256), calls)
  const make = given.openHouse ?? openHouse
  const house: House = await make({ chance, now, stores, photos, report: (error) => reports.push(error) })
  const send = async (request: Request) => house.app.fetch(request)
  const nobody = createWire(send)

  const unbox = (): { phone: Phone; cookie: () => string } => {
    let cookie = ''
    const wire = createWire((request) => {
      cookie = request.headers.get('cookie') ?? cookie
      return send(request)
    })
    return { phone: createPhone({ chance, now, wire }), cookie: () => cookie }
  }
  const settle = async ({ phone, cookie }: { phone: Phone; cookie: () => string }): Promise<Person> => {
    const identity = await phone.store.transact((tx) => getMeta(tx, 'identity'))
    await phone.wire({ method: 'GET', path: '/api/jobs' })
    return { phone, cookie, identity: identity! }
  }

  /** A company of its own in this house. */
  const found = async (company: string, owner: string): Promise<Person> => {
    const code = `set-up-code-${newId()}`
    await plain.accounts.putCode({
      codeHash: secretHash(code, house.world),
      purpose: 'set-up',
      company: undefined,
      person: undefined,
      use: undefined,
      expiresAt: now() + 60_000,
    })
    const boxed = unbox()
    await boxed.phone.setUp(code, { company, owner })
    return settle(boxed)
  }
  const newId = () => uuidV7(now(), chance.bytes)

  const owner = await found('Brindlefork Flatwork', 'Curt')
  const company = owner.identity.company

  const inviteCode = async (person: string, by: Person = owner, use = 'phone'): Promise<string> => {
    const request = { method: 'POST', path: '/api/invite', ...jsonBody({ person, use }) } as const
    const code = readAnswer(await by.phone.wire(request), invited)
    if (!code.ok) throw new Error(`not invited: ${code.refused.code}`)
    return code.value.code
  }

  /** A person with a phone of their own. */
  const hire = async (name: string, role: Role): Promise<Person> => {
    const person = newId()
    await owner.phone.log(company, 'person.added', { person, name, role })
    await syncRound(owner.phone)
    const boxed = unbox()
    await boxed.phone.join(await inviteCode(person))
    return settle(boxed)
  }

  /** A phone that the crew shares, for which this person answers. */
  const share = async (answers: Person = owner): Promise<Person> => {
    const boxed = unbox()
    await boxed.phone.join(await inviteCode(answers.identity.person, owner, 'shared'))
    return settle(boxed)
  }

  /** All that the log of a company holds, as text to compare. */
  const dump = async (of = company): Promise<string> => {
    const row = await plain.log.company(of)
    const { leaves } = await plain.log.page(of, 0, Math.max(1, row?.frontier.size ?? 0))
    return JSON.stringify({
      row,
      leaves: leaves.map((leaf) => toBase64(leaf.leaf)),
      newest: (await plain.log.newestCheckpoint(of))?.note,
      heads: (await plain.log.heads(of)).map((head) => head.note),
    })
  }
  const size = async (): Promise<number> => (await plain.log.company(company))!.frontier.size
  /** Bodies of the server's notes about what it did not take. */
  const refusals = async (): Promise<{ hash: string; device: string; code: string }[]> =>
    (await plain.log.thread(company, company))
      .filter((leaf) => leaf.kind === 'entry.refused')
      .map((leaf) => JSON.parse(readUtf8(leaf.bytes!)!).body)

  return {
    chance,
    now,
    later: (ms: number) => {
      time += ms
    },
    calls,
    reports,
    stores: plain,
    photos,
    house,
    send,
    nobody,
    unbox,
    settle,
    found,
    newId,
    owner,
    company,
    inviteCode,
    hire,
    share,
    dump,
    size,
    refusals,
  }
}

/** An entry's text by this person's phone, with any member set otherwise; it need not be one that the log takes. */
export const entryText = (site: Site, by: Person, members: Readonly<Record<string, unknown>>): string => {
  const at = by.phone.localTime()
  const all = {
    v: VOCABULARY,
    id: site.newId(),
    job: JOB,
    kind: 'remark.made',
    body: { remark: { lang: 'en', text: 'Base was damp at the gate' } },
    occurredAt: at,
    recordedAt: at,
    boot: by.phone.boot,
    mono: 5,
    device: by.identity.device,
    by: { known: 'own-device', person: by.identity.person },
    source: 'tap',
    ...members,
  }
  return canonicalJson(Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)))
}

/** Tern Court. */
export const JOB = '019db000-0000-7000-8000-00000000ce11'
export const LOAD = '019db000-0000-7000-8000-0000000010ad'

export const hashOf = (text: string): string => hashEntry(toUtf8(text), sha256)

export type PushParts = {
  readonly entries: readonly string[]
  /** What this device had pushed before, in order. */
  readonly before?: readonly string[]
  readonly epoch?: number
  /** A company checkpoint that the phone claims to have verified. */
  readonly seen?: string
}

/** A push as a phone would make it, signed. */
export const signedPush = async (by: Person, parts: PushParts) => {
  const { entries, before = [], epoch = 1, seen = '' } = parts
  const { phone, identity } = by
  const origin = deviceOrigin(identity.origin, identity.device, epoch)
  const end = appendAll(
    EMPTY_FRONTIER,
    [...before, ...entries].map((text) => readHex(hashOf(text))!),
    sha256,
  )
  const read = readCheckpoint(seen.slice(0, seen.lastIndexOf('\n\n') + 1))
  const head = writeHead({
    origin,
    size: end.size,
    root: rootOf(end, sha256),
    seen: read.ok ? read.value : { size: 0, root: sha256(new Uint8Array()) },
    clock: { at: phone.localTime(), boot: phone.boot, mono: 7 },
  })
  const key = { name: origin, publicKey: await phone.publicKey() }
  return {
    protocol: PROTOCOL_VERSION,
    epoch,
    from: before.length,
    entries: [...entries],
    head: await signNote(head, key, phone.sign, sha256),
    seen,
  }
}

export const sendPush = (
  by: Person,
  request: unknown,
  headers: Record<string, string> = {},
): Promise<WireAnswer> => {
  const json = jsonBody(request)
  return by.phone.wire({
    method: 'POST',
    path: '/api/push',
    ...json,
    headers: { ...json.headers, ...headers },
  })
}

/** Pushes; the answer has to be one. */
export const pushed = async (by: Person, parts: PushParts): Promise<PushAnswer> => {
  const answer = readAnswer(await sendPush(by, await signedPush(by, parts)), pushAnswer)
  if (!answer.ok) throw new Error(`not taken: ${answer.refused.code} ${answer.refused.at}`)
  return answer.value
}

export const textOf = (answer: WireAnswer): string => readUtf8(answer.body)!
export const jsonOf = (answer: WireAnswer): unknown => JSON.parse(textOf(answer))

/** The problem in an answer; throws where it is none. */
export const problemOf = (answer: WireAnswer): ProblemBody => {
  if (answer.headers.get('content-type') !== 'application/problem+json')
    throw new Error(`no problem: ${answer.status} ${textOf(answer).slice(0, 200)}`)
  return JSON.parse(textOf(answer)) as ProblemBody
}

/** A small file that begins like a JPEG. */
export const jpeg = (length: number, fill = 1): Uint8Array => {
  const bytes = new Uint8Array(length).fill(fill)
  bytes.set([0xff, 0xd8, 0xff, 0xe0])
  return bytes
}
