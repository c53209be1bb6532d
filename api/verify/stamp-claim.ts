/** What is asked of a time stamp: whether it is one over these bytes, for that request, by an authority one trusts. */
export type StampQuestion = {
  /** What was stamped: a checkpoint's note. */
  readonly stamped: Uint8Array
  /** Of the request, as its bytes without leading zeros count. */
  readonly nonce: Uint8Array
  /** Certificates (DER) that one trusts, had from elsewhere; none where nobody gave any. */
  readonly roots: readonly Uint8Array[]
}

export type StampProblem = {
  readonly code: 'stamp-malformed' | 'stamp-differs' | 'stamp-signature' | 'stamp-authority'
  readonly detail: string
}

/** What an RFC 3161 response says, with each thing that does not hold; a token that can't be read says nothing. */
export type StampAnswer = {
  readonly said?: {
    /** The authority's time, ms since 1970. */
    readonly at: number
    /** As its certificate names it. */
    readonly authority: string
    /** Where its chain of certificates ends: in one that was given as trusted, or in what the token itself brings. */
    readonly rootedIn: 'given' | 'token'
  }
  readonly problems: readonly StampProblem[]
}

/** Reads a response and checks it by RFC 3161, RFC 5652 and RFC 5280. Never rejects: what can't be read is a problem. */
export type ReadTimestamp = (response: Uint8Array, question: StampQuestion) => Promise<StampAnswer>
