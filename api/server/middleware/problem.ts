import type { Context } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { PROBLEMS, type ProblemBody, type ProblemCode } from '../../contract/problems.ts'
import { type Language, say } from '../../domain/words/words.ts'

/** RFC 9457. The sentence is in the asker's language; programs go by `code` and `errors`. */
export const problem = (
  c: Context,
  code: ProblemCode,
  facts: { at?: string; next?: number; headers?: Record<string, string> } = {},
): Response => {
  const { status, says } = PROBLEMS[code]
  const sentence = say(languageOf(c), says, { at: facts.at ?? '' })
  const body: ProblemBody = {
    type: `urn:screedbook:problem:${code}`,
    title: sentence,
    status,
    code,
    detail: sentence,
    errors: facts.at ? [{ pointer: facts.at }] : [],
    ...(facts.next === undefined ? {} : { next: facts.next }),
  }
  return c.body(JSON.stringify(body), status as ContentfulStatusCode, {
    'content-type': 'application/problem+json',
    ...facts.headers,
  })
}

const languageOf = (c: Context): Language =>
  /^\s*es\b/i.test(c.req.header('accept-language') ?? '') ? 'es' : 'en'
