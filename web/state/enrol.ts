import type * as z from 'zod/mini'
import {
  type codeLook,
  type Enrolled,
  enrolled,
  joinLook,
  type joinRequest,
  setUpLook,
  type setUpRequest,
} from '../../api/contract/messages/enrol.ts'
import { PROBLEMS } from '../../api/contract/problems.ts'
import { toBase64 } from '../../api/domain/log/encoding.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { DeviceWorld } from '../device/world.ts'
import { readAnswer } from '../sync/answer.ts'
import { type Identity, putMeta } from '../sync/kept.ts'
import { jsonBody } from '../sync/sign-in.ts'
import { WireDown } from '../sync/wire.ts'

export type Asked<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly says: LabelKey }

/** Asks without a session; what went wrong is a sentence that somebody can act on. */
const post = async <S extends z.ZodMiniType>(
  world: DeviceWorld,
  path: string,
  value: unknown,
  schema: S,
): Promise<Asked<z.infer<S>>> => {
  try {
    const answer = readAnswer(await world.wire({ method: 'POST', path, ...jsonBody(value) }), schema)
    return answer.ok ? answer : { ok: false, says: PROBLEMS[answer.refused.code].says }
  } catch (error) {
    if (error instanceof WireDown) return { ok: false, says: 'needsNetwork' }
    throw error
  }
}

export const lookAtSetUp = (world: DeviceWorld, code: string) =>
  post(world, '/api/set-up/look', { code } satisfies z.infer<typeof codeLook>, setUpLook)

export const lookAtJoin = (world: DeviceWorld, code: string) =>
  post(world, '/api/join/look', { code } satisfies z.infer<typeof codeLook>, joinLook)

/** This device's public key; makes the key if there is none, and it is kept before the server hears of it. */
const ownKey = async (world: DeviceWorld): Promise<string> => toBase64(await world.publicKey())

export const setUp = async (
  world: DeviceWorld,
  given: Omit<z.infer<typeof setUpRequest>, 'key' | 'use'>,
): Promise<Asked<Enrolled>> =>
  keepIdentity(
    world,
    await post(
      world,
      '/api/set-up',
      { ...given, key: await ownKey(world), use: 'phone' } satisfies z.infer<typeof setUpRequest>,
      enrolled,
    ),
  )

export const join = async (world: DeviceWorld, code: string): Promise<Asked<Enrolled>> =>
  keepIdentity(
    world,
    await post(
      world,
      '/api/join',
      { code, key: await ownKey(world) } satisfies z.infer<typeof joinRequest>,
      enrolled,
    ),
  )

/** Who this device is, kept for good before anyone is told that it worked. */
const keepIdentity = async (world: DeviceWorld, asked: Asked<Enrolled>): Promise<Asked<Enrolled>> => {
  if (asked.ok) await world.store.transact((tx) => putMeta(tx, 'identity', asked.value satisfies Identity))
  return asked
}
