import type { Context } from 'hono'
import * as z from 'zod/mini'
import type { CodeRow } from '../../../db/log-store/account-store.ts'
import { codeLook, inviteRequest, joinRequest, setUpRequest } from '../../contract/messages/enrol.ts'
import { uuidV7 } from '../../domain/entry/make.ts'
import { companyOrigin } from '../../domain/log/device-log.ts'
import { writeVerifierKey } from '../../domain/log/note.ts'
import { enrolDevice, foundCompany } from '../log/enrol.ts'
import { problem } from '../middleware/problem.ts'
import { readJson } from '../middleware/read-body.ts'
import { newSecret, openSession, secretHash } from '../middleware/session.ts'
import { type Handler, type House, known } from './route.ts'

const DAY_MS = 24 * 3600 * 1000
const JOIN_MS = DAY_MS

const codeFor = async (
  house: House,
  code: string,
  purpose: CodeRow['purpose'],
): Promise<CodeRow | undefined> => {
  const { accounts, now } = house.world
  const row = await accounts.code(secretHash(code, house.world), now())
  return row?.purpose === purpose ? row : undefined
}

export const setUpLook: Handler = async (c, house) => {
  const request = await readJson(c, codeLook)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  return (await codeFor(house, request.value.code, 'set-up'))
    ? c.json({ purpose: 'set-up' })
    : problem(c, 'code-used')
}

export const joinLook: Handler = async (c, house) => {
  const request = await readJson(c, codeLook)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const row = await codeFor(house, request.value.code, 'join')
  if (!row?.company || !row.person) return problem(c, 'code-used')
  const { members } = await house.sequencer.state(row.company)
  const company = members.company?.name
  const person = members.people.get(row.person)?.name
  return company && person ? c.json({ purpose: 'join', company, person }) : problem(c, 'code-used')
}

/** What a spent code made, found again by code and key: an answer that was lost on its way can be asked for again. */
const receiptHash = (house: House, code: string, key: string): string =>
  secretHash(`${code} ${key}`, house.world)
const receipt = z.strictObject({ company: z.string(), person: z.string(), device: z.string() })
type Receipt = z.infer<typeof receipt>

const knownReceipt = async (house: House, code: string, key: string): Promise<Receipt | undefined> => {
  const row = await house.world.accounts.code(receiptHash(house, code, key), house.world.now())
  const [person, device] = row?.person?.split(' ') ?? []
  return row?.company && person && device ? { company: row.company, person, device } : undefined
}

const keepReceipt = (
  house: House,
  code: string,
  key: string,
  made: Receipt,
  purpose: CodeRow['purpose'],
): Promise<void> =>
  house.world.accounts.putCode({
    codeHash: receiptHash(house, code, key),
    purpose,
    company: made.company,
    person: `${made.person} ${made.device}`,
    use: undefined,
    expiresAt: house.world.now() + DAY_MS,
  })

export const setUp: Handler = async (c, house) => {
  const request = await readJson(c, setUpRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code, company: name, zone, owner, key, use } = request.value
  const { world } = house
  let made = await knownReceipt(house, code, key)
  if (!made) {
    if (!(await codeFor(house, code, 'set-up'))) return problem(c, 'code-used')
    const fresh = () => uuidV7(world.now(), world.random)
    made = { company: fresh(), person: fresh(), device: fresh() }
    // Before the code is spent, so that whoever spent it can always come back to what it made.
    await keepReceipt(house, code, key, made, 'set-up')
    if (!(await world.accounts.takeCode(secretHash(code, world)))) return problem(c, 'code-used')
  }
  const origin = companyOrigin(made.company, world.demo)
  await house.sequencer.found(made.company, origin, foundCompany({ ...made, name, zone, owner, key, use }))
  return answerEnrolled(c, house, made)
}

export const join: Handler = async (c, house) => {
  const request = await readJson(c, joinRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code, key } = request.value
  const { world } = house
  const spent = await knownReceipt(house, code, key)
  const row = spent ? undefined : await codeFor(house, code, 'join')
  const made =
    spent ??
    (row?.company && row.person
      ? { company: row.company, person: row.person, device: uuidV7(world.now(), world.random) }
      : undefined)
  if (!made) return problem(c, 'code-used')
  if (!spent) {
    await keepReceipt(house, code, key, made, 'join')
    if (!(await world.accounts.takeCode(secretHash(code, world)))) return problem(c, 'code-used')
  }
  const enrolment = { device: made.device, person: made.person, key, use: row?.use ?? 'phone' }
  if (!(await house.sequencer.run(made.company, enrolDevice(enrolment)))) return problem(c, 'unavailable')
  return answerEnrolled(c, house, made)
}

const answerEnrolled = async (c: Context, house: House, made: Receipt): Promise<Response> => {
  const { members } = await house.sequencer.state(made.company)
  const person = members.people.get(made.person)
  // A receipt whose code somebody else spent made nothing.
  if (!members.company || !person || !members.devices.has(made.device)) return problem(c, 'code-used')
  await openSession(c, house.world, made.company, made.device)
  const { origin, zone } = members.company
  const logKey = writeVerifierKey(house.world.keysOf(origin).log.noteKey, house.world.sha256)
  return c.json({
    company: made.company,
    origin,
    logKey,
    device: made.device,
    person: made.person,
    name: person.name,
    zone,
  })
}

export const invite = known(async (c, house, asker) => {
  const request = await readJson(c, inviteRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { members } = await house.sequencer.state(asker.company)
  const person = members.people.get(request.value.person)
  if (!person) return problem(c, 'not-found', { at: '/person' })
  if (person.role === 'owner' && asker.standing !== 'owner') return problem(c, 'not-allowed')
  const code = newSecret(house.world)
  const expiresAt = house.world.now() + JOIN_MS
  await house.world.accounts.putCode({
    codeHash: secretHash(code, house.world),
    purpose: 'join',
    company: asker.company,
    person: person.person,
    use: request.value.use,
    expiresAt,
  })
  return c.json({ code, path: `/join#${code}`, expiresAt })
})

/** A new one-time set-up code, where no company is there yet; for the program's start. */
export const makeSetUpCode = async (world: House['world']): Promise<string | undefined> => {
  if ((await world.store.companies()).length > 0) return undefined
  const code = newSecret(world)
  const expiresAt = world.now() + DAY_MS
  await world.accounts.putCode({
    codeHash: secretHash(code, world),
    purpose: 'set-up',
    company: undefined,
    person: undefined,
    use: undefined,
    expiresAt,
  })
  return code
}
