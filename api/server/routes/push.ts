import { MAX_PUSH_BYTES, type PushAnswer, pushRequest } from '../../contract/messages/push.ts'
import { PROTOCOL_VERSION } from '../../contract/version.ts'
import { readPush } from '../log/read-push.ts'
import { takePush } from '../log/take-push.ts'
import { problem } from '../middleware/problem.ts'
import { readJson } from '../middleware/read-body.ts'
import { known } from './route.ts'

export const push = known(async (c, { world, sequencer }, asker) => {
  const request = await readJson(c, pushRequest, MAX_PUSH_BYTES)
  if (!request.ok) return problem(c, request.problem.code, { at: request.problem.at })
  if (request.value.protocol > PROTOCOL_VERSION) return problem(c, 'protocol-newer')
  const { log } = world.keysOf(asker.origin)
  const read = await readPush(request.value, asker.origin, asker.device, log.noteKey, world)
  if (!read.ok) return problem(c, read.problem.code, { at: read.problem.at })
  const taken = await sequencer.run(asker.company, takePush(asker.device.device, read.value, world))
  if (!taken.ok) return problem(c, taken.code, taken.next === undefined ? {} : { next: taken.next })
  const answer: PushAnswer = { verdicts: [...taken.verdicts], size: taken.size, serverTime: world.now() }
  return c.json(answer)
})
