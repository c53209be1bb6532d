import { isProblemCode } from '../../api/contract/problems.ts'
import { readUtf8 } from '../../api/domain/log/encoding.ts'
import { type Wire, type WireAnswer, WireDown } from '../sync/wire.ts'

/** Half a megabyte at a quarter of a megabit a second takes 17 s; a phone that waits longer has no network. */
const PATIENCE_MS = 45_000

/** Requests to the app's own server. Throws `WireDown` where no whole answer of the server itself came. */
export const makeWire =
  (patienceMs = PATIENCE_MS): Wire =>
  async ({ method, path, headers, body }) => {
    const answer = await whole(path, {
      method,
      ...(headers ? { headers } : {}),
      ...(body === undefined ? {} : { body: body as BodyInit }),
      credentials: 'same-origin',
      cache: 'no-store',
      redirect: 'error',
      signal: AbortSignal.timeout(patienceMs),
    })
    // A proxy's own "bad gateway" says nothing about our request; a problem with a code of ours does.
    if (answer.status >= 500 && !isProblem(answer.body)) throw new WireDown(`status ${answer.status}`)
    return answer
  }

const whole = async (path: string, init: RequestInit): Promise<WireAnswer> => {
  try {
    const response = await fetch(path, init)
    return {
      status: response.status,
      headers: response.headers,
      body: new Uint8Array(await response.arrayBuffer()),
    }
  } catch (error) {
    throw new WireDown(error instanceof Error ? error.message : 'no network')
  }
}

const isProblem = (body: Uint8Array): boolean => {
  try {
    const value: unknown = JSON.parse(readUtf8(body) ?? '')
    return typeof value === 'object' && value !== null && 'code' in value && isProblemCode(String(value.code))
  } catch {
    return false
  }
}
