import { fail, ok, type Result } from '../../domain/result.ts'

/** Sends a query to an authority and gives its response's bytes, unread. */
export type AskAuthority = (query: Uint8Array) => Promise<Result<Uint8Array, 'authority-unreachable'>>

const ASK_MS = 30_000
/** A token with a long chain of certificates is some 10 kB. */
const MOST_BYTES = 256 * 1024

/** An authority behind HTTP, until told to stop. Source: RFC 3161 (2001) §3.4. Fails: `authority-unreachable`, with what was seen. */
export const httpAuthority =
  (url: string, stop: AbortSignal): AskAuthority =>
  async (query) => {
    try {
      const answer = await fetch(url, {
        method: 'POST',
        headers: { 'content-type': 'application/timestamp-query' },
        body: query as Uint8Array<ArrayBuffer>,
        signal: AbortSignal.any([stop, AbortSignal.timeout(ASK_MS)]),
      })
      if (!answer.ok || !answer.body)
        return fail('authority-unreachable', url, { said: `HTTP ${answer.status}` })
      const parts: Uint8Array[] = []
      let length = 0
      for await (const part of answer.body) {
        length += part.length
        if (length > MOST_BYTES) return fail('authority-unreachable', url, { said: 'an answer without end' })
        parts.push(part)
      }
      return ok(new Uint8Array(Buffer.concat(parts)))
    } catch (error) {
      const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error
      return fail('authority-unreachable', url, { said: String(cause) })
    }
  }

/** Whether TIMESTAMP_URL can be an authority's address. */
export const isAuthorityUrl = (text: string): boolean => {
  try {
    return ['http:', 'https:'].includes(new URL(text).protocol)
  } catch {
    return false
  }
}
