import { isProblemCode, PROBLEMS } from '../../api/contract/problems.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { PullDoubt } from '../sync/verify-stretch.ts'
import type { LastRound } from './sync.ts'

/** The sentence for why a round stopped, if it did. Losing the network is no reason: it is said by itself. */
export const stopSentence = (last: LastRound | undefined): LabelKey | undefined => {
  if (!last) return undefined
  if ('error' in last) return 'syncBroke'
  const { push, pull, photos } = last.outcome
  if (push?.is === 'stopped') return PROBLEMS[push.refused.code].says
  if (pull?.is === 'stopped') return PROBLEMS[pull.refused.code].says
  if (pull?.is === 'does-not-hold') return DOUBTS[pull.code]
  if (photos?.stopped) return PROBLEMS[photos.stopped.code].says
  return undefined
}

const DOUBTS: Record<PullDoubt, LabelKey> = {
  'answer-malformed': 'doubtMalformed',
  'checkpoint-signature': 'doubtSignature',
  'checkpoint-contradicts': 'doubtContradicts',
  'thread-broken': 'doubtThread',
  'entry-differs': 'doubtMalformed',
  'own-entry-missing': 'doubtOwnMissing',
}

/** The sentence of a code that came from the server or lies in evidence; codes that we don't know have one too. */
export const sentenceOf = (code: string): LabelKey => {
  if (isProblemCode(code)) return PROBLEMS[code].says
  return Object.hasOwn(DOUBTS, code) ? DOUBTS[code as PullDoubt] : 'problemUnavailable'
}
