import type * as z from 'zod/mini'
import { isProblemCode, type ProblemCode } from '../../api/contract/problems.ts'
import { readUtf8 } from '../../api/domain/log/encoding.ts'
import type { PhoneWorld } from './phone-world.ts'
import { signIn } from './sign-in.ts'
import type { WireAnswer, WireRequest } from './wire.ts'

export type Refused = { readonly code: ProblemCode; readonly at: string; readonly next: number | undefined }
export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refused: Refused }

/** The answer by its schema, or the problem that it carries; anything else counts as `unavailable`. */
export const readAnswer = <S extends z.ZodMiniType>(answer: WireAnswer, schema: S): Answer<z.infer<S>> => {
  let body: unknown
  try {
    body = JSON.parse(readUtf8(answer.body) ?? '')
  } catch {
    return { ok: false, refused: unavailable }
  }
  if (answer.status === 200) {
    const read = schema.safeParse(body)
    return read.success ? { ok: true, value: read.data } : { ok: false, refused: unavailable }
  }
  return { ok: false, refused: readRefusal(body) }
}

const unavailable: Refused = { code: 'unavailable', at: '', next: undefined }

const readRefusal = (body: unknown): Refused => {
  if (typeof body !== 'object' || body === null || !('code' in body)) return unavailable
  const { code } = body
  if (typeof code !== 'string' || !isProblemCode(code)) return unavailable
  const errors = 'errors' in body && Array.isArray(body.errors) ? body.errors : []
  const at: unknown = errors[0]?.pointer
  const next = 'next' in body && typeof body.next === 'number' ? body.next : undefined
  return { code, at: typeof at === 'string' ? at : '', next }
}

/** Sends; where the session is gone, signs in once and sends again. */
export const ask = async (world: PhoneWorld, request: WireRequest): Promise<WireAnswer> => {
  const answer = await world.wire(request)
  if (answer.status !== 401) return answer
  return (await signIn(world)) ? world.wire(request) : answer
}
