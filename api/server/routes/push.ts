import { MAX_PUSH_BYTES, type PushAnswer, pushRequest } from '../../contract/messages/push.ts'
import { PROTOCOL_VERSION } from '../../contract/version.ts'
import { readPush } from '../log/read-push.ts'
import { takePush } from '../log/take-push.ts'
import { problem } from '../middleware/problem.ts'
import { readShape, readValue } from '../middleware/read-body.ts'
import { known } from './route.ts'

export const push = known(async (c, { world, sequencer }, asker) => {
  const body = await readValue(c, MAX_PUSH_BYTES)
  if (!body.ok) return problem(c, body.problem.code, { at: body.problem.at })
  // Before its shape: a later protocol may have brought fields that this one doesn't know.
  if (isNewer(body.value)) return problem(c, 'protocol-newer')
  const request = readShape(body.value, pushRequest)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  const { log } = world.keysOf(asker.origin)
  const read = await readPush(request.value, asker.origin, asker.device, log.noteKey, world)
  if (!read.ok) return problem(c, read.problem.code, { at: read.problem.at })
  const taken = await sequencer.run(asker.company, takePush(asker.device.device, read.value, world))
  if (!taken.ok) return problem(c, taken.code, taken.next === undefined ? {} : { next: taken.next })
  const answer: PushAnswer = { verdicts: [...taken.verdicts], size: taken.size, serverTime: world.now() }
  return c.json(answer)
})

const isNewer = (body: unknown): boolean =>
  typeof body === 'object' &&
  body !== null &&
  'protocol' in body &&
  Number.isSafeInteger(body.protocol) &&
  Number(body.protocol) > PROTOCOL_VERSION
