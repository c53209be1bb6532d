import type { BodyOf } from '../../domain/entry/registry.ts'
import type { Draft } from '../log/draft.ts'

/**
 * Work for the sequencer: keeps an authority's response and says so in the company's thread (SPEC L57). False where a stamp
 * of this size or a later one is there already, as when another process asked too, or where the log takes nothing more.
 */
export const keepStamp =
  (body: BodyOf<'checkpoint.stamped'>, response: Uint8Array) =>
  async (draft: Draft): Promise<boolean> => {
    if (draft.isStopped() || draft.state().stamped >= body.size) return false
    draft.addStamp({ token: body.token, size: body.size, bytes: response })
    await draft.say({ job: draft.company, kind: 'checkpoint.stamped', body })
    return true
  }
