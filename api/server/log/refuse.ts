import type { PushVerdict } from '../../contract/messages/push.ts'
import type { ProblemCode } from '../../contract/problems.ts'
import type { Draft } from './draft.ts'

/** Notes the refusal once, by hash and code: the bytes stay with the phone. */
export const refuse = async (
  draft: Draft,
  device: string,
  hash: string,
  problem: { readonly code: ProblemCode; readonly at: string },
): Promise<PushVerdict> => {
  if (!draft.state().refused.has(hash))
    await draft.say({ job: draft.company, kind: 'entry.refused', body: { hash, device, code: problem.code } })
  return { is: 'refused', code: problem.code, at: problem.at }
}
