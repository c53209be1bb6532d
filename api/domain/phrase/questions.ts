import type { Token } from './tokens.ts'

const ASKS = new Set(
  'who what where when why how which whose whom quien quienes cual cuanto cuanta cuantos cuantas donde did does do is are was were can could would should shall may anybody anyone que'.split(
    ' ',
  ),
)
const AUXILIARY = new Set(
  'did does do is are was were can could would should will have has s d re the time much many far long'.split(
    ' ',
  ),
)
const LEAD = new Set(
  'hey so okay ok and uh um well oye y pues fellas guys man bro boss curt wade teddy marisol beto but now'.split(
    ' ',
  ),
)
const SUBJECT = new Set(
  'you we they he she it i the that this there anybody anyone somebody someone him y'.split(' '),
)

/** Whether a sentence asks: by its mark, or by how it begins where nobody wrote marks. */
export const isQuestion = (words: readonly Token[], mark: string | undefined): boolean => {
  if (mark === '?') return true
  let i = 0
  while (i < words.length && (LEAD.has(words[i]!.text) || words[i]!.text === '¿' || words[i]!.text === ',')) {
    if (words[i]!.text === '¿') return true
    i += 1
  }
  const first = words[i]?.text ?? ''
  const second = words[i + 1]?.text ?? ''
  if (words.slice(0, 3).some((w) => w.text === '¿')) return true
  if (!ASKS.has(first)) return first === 'a' && second === 'que' && words[i + 2]?.text === 'hora'
  if (first === 'when' || first === 'cuando') return AUXILIARY.has(second)
  if (first === 'what')
    return (
      AUXILIARY.has(second) || ['time', 'kind', 'about', 'slump', 'truck', 'load', 'the'].includes(second)
    )
  if (first === 'which') return second !== 'makes' && second !== 'is'
  if (first === 'que') return ['hora', 'tanto', 'tan', 'paso', 'ticket', 'camion', 'es'].includes(second)
  // `did not run a slump` tells; `did you run a slump` asks.
  if (['did', 'does', 'do', 'is', 'are', 'was', 'were', 'can', 'could', 'would', 'should'].includes(first))
    return (
      second !== 'not' &&
      (SUBJECT.has(second) || ['somebody', 'air', 'slump', 'load', 'truck', 'anything'].includes(second))
    )
  if (first === 'may' || first === 'shall') return SUBJECT.has(second)
  return true
}
