import type { Context } from 'hono'
import type { CodeRow } from '../../../db/log-store/account-store.ts'
import { codeLook, inviteRequest, joinRequest, setUpRequest } from '../../contract/messages/enrol.ts'
import { companyOrigin } from '../../domain/log/device-log.ts'
import { toUtf8 } from '../../domain/log/encoding.ts'
import { writeVerifierKey } from '../../domain/log/note.ts'
import { uuidV8 } from '../keys.ts'
import { enrolDevice, foundCompany } from '../log/enrol.ts'
import { problem } from '../middleware/problem.ts'
import { readJson } from '../middleware/read-body.ts'
import { newSecret, openSession, secretHash } from '../middleware/session.ts'
import { makeJoinCode } from './join-code.ts'
import { type Handler, type House, known } from './route.ts'

const DAY_MS = 24 * 3600 * 1000

const codeFor = async (
  house: House,
  code: string,
  purpose: CodeRow['purpose'],
): Promise<CodeRow | undefined> => {
  const { accounts, now } = house.world
  const row = await accounts.code(secretHash(code, house.world), now())
  return row?.purpose === purpose ? row : undefined
}

/**
 * What a code makes, always the same: whoever comes again with the same code and key finds what the first try made, and
 * two who use one code at once come to the same ids, of which the log takes only the first.
 */
const madeBy = (house: House, code: string, part: 'company' | 'person' | 'device'): string =>
  uuidV8(house.world.sha256(toUtf8(`screedbook ${part} by code v1\n${code}`)).slice(0, 16))

export const setUpLook: Handler = async (c, house) => {
  const request = await readJson(c, codeLook)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code } = request.value
  const row = await codeFor(house, code, 'set-up')
  const used = row && (await house.world.store.company(madeBy(house, code, 'company')))
  return row && !used ? c.json({ purpose: 'set-up' }) : problem(c, 'code-used')
}

export const joinLook: Handler = async (c, house) => {
  const request = await readJson(c, codeLook)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code } = request.value
  const row = await codeFor(house, code, 'join')
  if (!row?.company || !row.person) return problem(c, 'code-used')
  const { members } = await house.sequencer.state(row.company)
  const company = members.company?.name
  const person = members.people.get(row.person)?.name
  if (!company || !person || members.devices.has(madeBy(house, code, 'device')))
    return problem(c, 'code-used')
  return c.json({ purpose: 'join', company, person, ...sharedUse(row.use) })
}

export const setUp: Handler = async (c, house) => {
  const request = await readJson(c, setUpRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code, company: name, zone, owner, key, use } = request.value
  if (!(await codeFor(house, code, 'set-up'))) return problem(c, 'code-used')
  const made = {
    company: madeBy(house, code, 'company'),
    person: madeBy(house, code, 'person'),
    device: madeBy(house, code, 'device'),
  }
  const origin = companyOrigin(made.company, house.world.demo)
  const founding = foundCompany({ ...made, name, zone, owner, key, use })
  const outcome = await house.sequencer.found(made.company, origin, founding)
  return outcome === 'enrolled' ? answerEnrolled(c, house, made) : problem(c, outcome)
}

export const join: Handler = async (c, house) => {
  const request = await readJson(c, joinRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { code, key } = request.value
  const row = await codeFor(house, code, 'join')
  if (!row?.company || !row.person) return problem(c, 'code-used')
  const made = { company: row.company, person: row.person, device: madeBy(house, code, 'device') }
  const enrolment = { device: made.device, person: made.person, key, use: row.use ?? 'phone' }
  const outcome = await house.sequencer.run(made.company, enrolDevice(enrolment))
  return outcome === 'enrolled' ? answerEnrolled(c, house, made) : problem(c, outcome)
}

type Made = { readonly company: string; readonly person: string; readonly device: string }

/** Said of shared phones alone: an app that knows none of them goes on joining as before. */
const sharedUse = (use: string | undefined) => (use === 'shared' ? { use } : {})

const answerEnrolled = async (c: Context, house: House, made: Made): Promise<Response> => {
  const { members } = await house.sequencer.state(made.company)
  const person = members.people.get(made.person)
  if (!members.company || !person) return problem(c, 'unavailable')
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
    ...sharedUse(members.devices.get(made.device)?.use),
  })
}

export const invite = known(async (c, house, asker) => {
  const request = await readJson(c, inviteRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { members } = await house.sequencer.state(asker.company)
  const person = members.people.get(request.value.person)
  if (!person) return problem(c, 'not-found', { at: '/person' })
  if (person.role === 'owner' && asker.standing !== 'owner') return problem(c, 'not-allowed')
  const { use } = request.value
  const made = await makeJoinCode(house.world, { company: asker.company, person: person.person, use })
  return c.json({ ...made, path: `/join#${made.code}` })
})

/** A new one-time set-up code, where no company is there yet; for the program's start. */
export const makeSetUpCode = async (world: House['world']): Promise<string | undefined> => {
  if ((await world.store.companies()).length > 0) return undefined
  // A link of an earlier start must not make a second company beside the first.
  await world.accounts.dropCodes('set-up')
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
