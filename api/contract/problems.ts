import type { LabelKey } from '../domain/words/labels.ts'

/**
 * Every code that a refusal may carry: its HTTP status and the sentence that a foreman can act on (a key of the
 * dictionaries, so that English and Spanish both exist or the types fail).
 */
export const PROBLEMS = {
  // Of one entry
  'entry-too-large': { status: 422, says: 'problemEntryTooLarge' },
  'entry-not-utf8': { status: 422, says: 'problemEntryDamaged' },
  'entry-not-json': { status: 422, says: 'problemEntryDamaged' },
  'entry-not-canonical': { status: 422, says: 'problemEntryDamaged' },
  'entry-value-kind': { status: 422, says: 'problemEntryDamaged' },
  'entry-too-deep': { status: 422, says: 'problemEntryDamaged' },
  'entry-malformed': { status: 422, says: 'problemEntryMalformed' },
  'kind-unknown': { status: 422, says: 'problemKindUnknown' },
  'id-taken': { status: 409, says: 'problemIdTaken' },
  'entry-device': { status: 422, says: 'problemEntryDevice' },
  'entry-person': { status: 422, says: 'problemEntryPerson' },
  'entry-thread': { status: 422, says: 'problemEntryThread' },
  'role-may-not': { status: 403, says: 'problemRoleMayNot' },
  'kind-of-server': { status: 403, says: 'problemRoleMayNot' },
  'not-set-aside': { status: 422, says: 'problemNotSetAside' },
  'author-unknown': { status: 422, says: 'problemAuthorUnknown' },
  // Of a push
  'push-gap': { status: 409, says: 'problemPushGap' },
  'head-differs': { status: 422, says: 'problemHeadDiffers' },
  'head-malformed': { status: 422, says: 'problemHeadDiffers' },
  'head-signature': { status: 401, says: 'problemHeadSignature' },
  'device-forked': { status: 409, says: 'problemDeviceForked' },
  'epoch-unknown': { status: 409, says: 'problemDeviceForked' },
  'log-contradicted': { status: 409, says: 'problemLogContradicted' },
  'log-stopped': { status: 503, says: 'problemLogStopped' },
  'protocol-newer': { status: 503, says: 'problemProtocolNewer' },
  // Of a request
  'request-malformed': { status: 400, says: 'problemRequestMalformed' },
  'request-too-large': { status: 413, says: 'problemRequestTooLarge' },
  'not-signed-in': { status: 401, says: 'problemNotSignedIn' },
  'not-allowed': { status: 403, says: 'problemRoleMayNot' },
  'not-found': { status: 404, says: 'problemNotFound' },
  'code-used': { status: 410, says: 'problemCodeUsed' },
  'cross-site': { status: 403, says: 'problemCrossSite' },
  unavailable: { status: 503, says: 'problemUnavailable' },
  // Of a photo
  'photo-hash': { status: 422, says: 'problemPhotoHash' },
  'photo-offset': { status: 409, says: 'problemPhotoOffset' },
  'photo-too-large': { status: 413, says: 'problemPhotoTooLarge' },
  'photo-kind': { status: 422, says: 'problemPhotoKind' },
} as const satisfies { readonly [code: string]: { readonly status: number; readonly says: LabelKey } }

export type ProblemCode = keyof typeof PROBLEMS

/** RFC 9457 `application/problem+json`. */
export type ProblemBody = {
  readonly type: string
  readonly title: string
  readonly status: number
  readonly code: ProblemCode
  readonly detail: string
  readonly errors: readonly { readonly pointer: string }[]
  /** Of `push-gap`: the index to go on from. Of `device-forked`: the epoch to go on in. Of `photo-offset`: the bytes held. */
  readonly next?: number
}

export const isProblemCode = (code: string): code is ProblemCode => Object.hasOwn(PROBLEMS, code)
