import type { Context } from 'hono'
import type * as z from 'zod/mini'
import { fail, ok, type Result } from '../../domain/result.ts'

type BodyProblem = 'request-too-large' | 'request-malformed'

/** The body's bytes, of `most` at the most: counted as they come, whatever the length header says. */
export const readBytes = async (
  c: Context,
  most: number,
): Promise<Result<Uint8Array<ArrayBuffer>, BodyProblem>> => {
  const parts: Uint8Array[] = []
  let length = 0
  const reader = c.req.raw.body?.getReader()
  while (reader) {
    const part = await readPart(reader)
    if (part === 'cut') return fail('request-malformed')
    if (!part) break
    length += part.length
    if (length > most) {
      await reader.cancel().catch(() => {})
      return fail('request-too-large')
    }
    parts.push(part)
  }
  const whole = new Uint8Array(length)
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return ok(whole)
}

const readPart = async (
  reader: ReadableStreamDefaultReader<Uint8Array>,
): Promise<Uint8Array | 'cut' | undefined> => {
  try {
    return (await reader.read()).value
  } catch {
    return 'cut'
  }
}

/** The body as JSON, of any shape. */
export const readValue = async (c: Context, most: number): Promise<Result<unknown, BodyProblem>> => {
  const bytes = await readBytes(c, most)
  if (!bytes.ok) return bytes
  try {
    return ok(JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes.value)) as unknown)
  } catch {
    return fail('request-malformed')
  }
}

/** The value as one of this shape. Fails with a pointer to the first field that is wrong. */
export const readShape = <S extends z.ZodMiniType>(
  value: unknown,
  schema: S,
): Result<z.infer<S>, 'request-malformed'> => {
  const read = schema.safeParse(value)
  if (read.success) return ok(read.data)
  return fail(
    'request-malformed',
    (read.error.issues[0]?.path ?? []).map((step) => `/${String(step)}`).join(''),
  )
}

/** The body as JSON of this shape. */
export const readJson = async <S extends z.ZodMiniType>(
  c: Context,
  schema: S,
  most = 64 * 1024,
): Promise<Result<z.infer<S>, BodyProblem>> => {
  const value = await readValue(c, most)
  return value.ok ? readShape(value.value, schema) : value
}
