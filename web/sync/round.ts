import { keepEvidence } from './evidence.ts'
import type { PhoneWorld } from './phone-world.ts'
import { type PhotosOutcome, sendPhotos } from './photos.ts'
import { type PullOutcome, pull } from './pull.ts'
import { type PushOutcome, push, showSeen } from './push.ts'
import { sendUnlandedAgain, sendWaitingAgain } from './send-again.ts'
import { WireDown } from './wire.ts'

export type RoundOutcome = {
  readonly is: 'synced' | 'no-network' | 'stopped'
  readonly push: PushOutcome | undefined
  readonly pull: PullOutcome | undefined
  readonly photos: PhotosOutcome | undefined
}

/** Mends after which a push starts anew are few; more would be a server that leads us in circles. */
const MOST_STEPS = 200

/**
 * One whole sync: all entries out, the log in, then the photos (entries first: they are small and the figures need
 * them). Losing the network at any point loses nothing: the next round goes on from what the store holds.
 */
export const syncRound = async (world: PhoneWorld): Promise<RoundOutcome> => {
  let pushed: PushOutcome | undefined
  let pulled: PullOutcome | undefined
  let photos: PhotosOutcome | undefined
  try {
    pushed = await pushAll(world)
    pulled = await pullAll(world)
    if ((pulled.is === 'up-to-date' || pulled.is === 'pulled') && (await sendUnlandedAgain(world))) {
      pushed = await pushAll(world)
      pulled = await pullAll(world)
    }
    if (pulled.is === 'does-not-hold' && pushed.is !== 'stopped') pushed = await showSeen(world)
    photos = await sendPhotos(world)
    if (photos.stopped) await keepEvidence(world, photos.stopped.code)
    if (photos.sent > 0) pulled = await pullAll(world)
  } catch (error) {
    if (error instanceof WireDown) return { is: 'no-network', push: pushed, pull: pulled, photos }
    throw error
  }
  const doubtful = pulled.is === 'stopped' || pulled.is === 'does-not-hold'
  const stopped = pushed.is === 'stopped' || doubtful || photos.stopped !== undefined
  return { is: stopped ? 'stopped' : 'synced', push: pushed, pull: pulled, photos }
}

const pushAll = async (world: PhoneWorld): Promise<PushOutcome> => {
  await sendWaitingAgain(world)
  for (let step = 0; step < MOST_STEPS; step++) {
    const outcome = await push(world)
    const goOn = outcome.is === 'again' || (outcome.is === 'pushed' && outcome.more)
    if (!goOn) return outcome
  }
  return { is: 'stopped', refused: { code: 'unavailable', at: '', next: undefined } }
}

const pullAll = async (world: PhoneWorld): Promise<PullOutcome> => {
  for (;;) {
    const outcome = await pull(world)
    if (outcome.is !== 'pulled' || !outcome.more) return outcome
  }
}
