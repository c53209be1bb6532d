import { toHex, toUtf8 } from '../../domain/log/encoding.ts'
import { fail, ok, type Problem, type Result } from '../../domain/result.ts'
import { toUtcTime } from '../../domain/time.ts'
import type { ReadTimestamp } from '../../verify/stamp-claim.ts'
import type { Sequencer } from '../log/sequencer.ts'
import type { ServerWorld } from '../world.ts'
import type { AskAuthority } from './authority.ts'
import { dayStart, dueCheckpoint } from './due.ts'
import { keepStamp } from './keep-stamp.ts'
import { stampQuery } from './request.ts'

export type StamperWorld = Pick<ServerWorld, 'now' | 'random' | 'sha256' | 'store' | 'report'> & {
  readonly sequencer: Sequencer
  readonly ask: AskAuthority
  readonly read: ReadTimestamp
  /** Certificates (DER) to one of which an answer must lead; none where any authority will do. */
  readonly roots: readonly Uint8Array[]
}

export type StampFailure = 'authority-unreachable' | 'stamp-refused'

const FIRST_WAIT_MS = 60_000
const LONGEST_WAIT_MS = 6 * 3600 * 1000
const NONCE_BYTES = 16

/**
 * Asks an outside authority for a stamp over the last checkpoint of each day on which a company's log changed. `tick` is
 * called every so often and never rejects; after a failure it does nothing for a minute, then twice as long each time, up to
 * six hours. Pushes never wait for any of it: a stamp goes into the log as an entry of its own once it has come.
 */
export const createStamper = (world: StamperWorld): { readonly tick: () => Promise<void> } => {
  let running = false
  let failures = 0
  let notBefore = 0
  /** The day up to which a company has nothing more to stamp. */
  const done = new Map<string, number>()

  const stampAll = async (): Promise<void> => {
    const today = dayStart(world.now())
    for (const company of await world.store.companies()) {
      if (done.get(company) === today) continue
      const row = await world.store.company(company)
      const state = await world.sequencer.state(company)
      const due = row?.stopped
        ? undefined
        : await dueCheckpoint(world.store, company, state.stamped, world.now())
      if (due) {
        const kept = await stampOne(world, company, due)
        if (!kept.ok) throw new StampFailed(kept.problem)
      }
      done.set(company, today)
    }
  }

  return {
    tick: async () => {
      if (running || world.now() < notBefore) return
      running = true
      try {
        await stampAll()
        failures = 0
      } catch (error) {
        notBefore = world.now() + Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** failures)
        failures++
        world.report(error)
      } finally {
        running = false
      }
    },
  }
}

/** Asks, checks the answer by all that a record's reader will check, and only then keeps it. */
const stampOne = async (
  world: StamperWorld,
  company: string,
  { size, note }: { readonly size: number; readonly note: string },
): Promise<Result<boolean, StampFailure>> => {
  const stamped = toUtf8(note)
  const nonce = world.random(NONCE_BYTES)
  // A number whose first byte is nought is written shorter, and one whose first bit is set longer: neither is wanted.
  nonce[0] = (nonce[0]! & 0x7f) | 0x40
  const response = await world.ask(stampQuery(world.sha256(stamped), nonce))
  if (!response.ok) return response
  const { said, problems } = await world.read(response.value, { stamped, nonce, roots: world.roots })
  if (!said || problems.length > 0)
    return fail('stamp-refused', 'TIMESTAMP_URL', { said: problems.map(({ detail }) => detail).join('; ') })
  const body = {
    size,
    token: toHex(world.sha256(response.value)),
    nonce: toHex(nonce),
    stampedAt: toUtcTime(said.at).replace('Z', '+00:00'),
  }
  return ok(await world.sequencer.run(company, keepStamp(body, response.value)))
}

/** For the server's report: which authority's answer was not kept, and why. It is asked again. */
export class StampFailed extends Error {
  override readonly name = 'StampFailed'
  constructor({ code, at, evidence }: Problem<StampFailure>) {
    super(`no time stamp was kept (${code}, ${at}): ${evidence?.said ?? ''}. It is asked for again later.`)
  }
}
