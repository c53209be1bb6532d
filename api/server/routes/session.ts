import { sessionRequest, sessionText } from '../../contract/messages/session.ts'
import { readBase64, toUtf8 } from '../../domain/log/encoding.ts'
import { problem } from '../middleware/problem.ts'
import { readJson } from '../middleware/read-body.ts'
import { newSecret, openSession, secretHash } from '../middleware/session.ts'
import type { Handler } from './route.ts'

const CHALLENGE_MS = 5 * 60 * 1000

export const challenge: Handler = async (c, { world }) => {
  const nonce = newSecret(world)
  await world.accounts.putChallenge({
    nonceHash: secretHash(nonce, world),
    expiresAt: world.now() + CHALLENGE_MS,
  })
  return c.json({ nonce })
}

/** A session for whoever signs the challenge with an enrolled device's key. Every failure reads the same. */
export const session: Handler = async (c, { world, sequencer }) => {
  const request = await readJson(c, sessionRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { company, device, nonce, signature } = request.value
  if (!(await world.accounts.takeChallenge(secretHash(nonce, world), world.now())))
    return problem(c, 'not-signed-in')
  const found = UUID.test(company) ? (await sequencer.state(company)).members.devices.get(device) : undefined
  const key = found && readBase64(found.key)
  const signed = readBase64(signature)
  const holds =
    key && signed && (await world.verify(key, toUtf8(sessionText(company, device, nonce)), signed))
  if (!holds) return problem(c, 'not-signed-in')
  const expiresAt = await openSession(c, world, company, device)
  return c.json({ device, expiresAt })
}

const UUID = /^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/
