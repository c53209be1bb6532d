import { challengeAnswer, sessionText } from '../../api/contract/messages/session.ts'
import { toBase64, toUtf8 } from '../../api/domain/log/encoding.ts'
import { readAnswer } from './answer.ts'
import { getMeta } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'

/** Shows the server that this device holds its key, for a new session. False where the server does not know it. */
export const signIn = async (world: PhoneWorld): Promise<boolean> => {
  const identity = await world.store.transact((tx) => getMeta(tx, 'identity'))
  if (!identity) return false
  const asked = await world.wire({ method: 'POST', path: '/api/session/challenge', ...jsonBody({}) })
  const challenge = readAnswer(asked, challengeAnswer)
  if (!challenge.ok) return false
  const { nonce } = challenge.value
  const signature = await world.sign(toUtf8(sessionText(identity.company, identity.device, nonce)))
  const answer = await world.wire({
    method: 'POST',
    path: '/api/session',
    ...jsonBody({
      company: identity.company,
      device: identity.device,
      nonce,
      signature: toBase64(signature),
    }),
  })
  return answer.status === 200
}

export const jsonBody = (value: unknown) => ({
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(value),
})
