/**
 * What must be forgettable and so is no entry: one-time codes, sign-in challenges, sessions. All secrets are kept as
 * SHA-256 hex of what the holder shows; the store never sees the secret.
 */
export type CodeRow = {
  readonly codeHash: string
  /** `set-up` makes a company; `join` enrols a further device of a person of a company. */
  readonly purpose: 'set-up' | 'join'
  readonly company: string | undefined
  readonly person: string | undefined
  readonly use: 'phone' | 'office' | 'shared' | undefined
  readonly expiresAt: number
}
export type SessionRow = {
  readonly tokenHash: string
  readonly company: string
  readonly device: string
  readonly expiresAt: number
}
export type ChallengeRow = { readonly nonceHash: string; readonly expiresAt: number }

export type AccountStore = {
  putCode(row: CodeRow): Promise<void>
  /** The code if it is there and not past. That it works once is decided by the log, which takes a device once. */
  code(codeHash: string, now: number): Promise<CodeRow | undefined>
  /** Forgets every code of this purpose: a link that was printed before is dead. */
  dropCodes(purpose: CodeRow['purpose']): Promise<void>
  putChallenge(row: ChallengeRow): Promise<void>
  /** True once, for a challenge that is there and not past. */
  takeChallenge(nonceHash: string, now: number): Promise<boolean>
  putSession(row: SessionRow): Promise<void>
  session(tokenHash: string, now: number): Promise<SessionRow | undefined>
  dropSessions(company: string, device: string): Promise<void>
  /** Forgets what is past. */
  sweep(now: number): Promise<void>
}
