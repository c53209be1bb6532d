/** One published case: what goes in, what a source says comes out, how closely, and how that source was read. */
export type ReferenceCase = {
  readonly id: string
  readonly topic: string
  readonly source: string
  readonly where: string
  readonly confirmed: boolean
  /** memory: it may warn, but it fails nothing. */
  readonly basis: 'printed' | 'derived' | 'memory' | 'practice'
  readonly inputs: Readonly<Record<string, unknown>>
  readonly expected: Readonly<Record<string, unknown>>
  readonly tolerance: Tolerance
  readonly note: string
}
export type Tolerance =
  | 'exact'
  | { readonly abs: number | Readonly<Record<string, number>> }
  | { readonly rel: number | Readonly<Record<string, number>> }

export type Outcome = {
  readonly id: string
  readonly status: 'pass' | 'fail' | 'warn' | 'no function'
  /** What our function gave, in the case’s own keys; the problem where it refused the input. */
  readonly got: unknown
  readonly expected: unknown
  /** Which function was asked. */
  readonly function?: string
}
