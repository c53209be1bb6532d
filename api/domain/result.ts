/** An expected failure: a code that words and HTTP know, where it sits, and what was seen. */
export type Problem<C extends string = string> = {
  readonly code: C
  /** JSON pointer to the field (RFC 6901), or the name of a file; empty for the whole. */
  readonly at: string
  readonly evidence?: Readonly<Record<string, string | number>>
}

export type Ok<T> = { readonly ok: true; readonly value: T }
export type Fail<C extends string = string> = { readonly ok: false; readonly problem: Problem<C> }
/** Expected failures are values; an exception means a bug or a machine that failed. */
export type Result<T, C extends string = string> = Ok<T> | Fail<C>

export const ok = <T>(value: T): Ok<T> => ({ ok: true, value })

export const fail = <C extends string>(
  code: C,
  at = '',
  evidence?: Readonly<Record<string, string | number>>,
): Fail<C> => ({ ok: false, problem: evidence ? { code, at, evidence } : { code, at } })
