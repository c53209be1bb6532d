import { byWhom } from './finding-text.ts'
import type { Words } from './language.ts'
import type { LimitLine } from './load-clock.ts'

/** One limit of a load in words: what it runs to, whose it is, and how it stands. */
export const limitText = (t: Words, line: LimitLine): string => {
  if (line.is === 'not-stated') return t('limitNotStated')
  const { to, statedBy } = line.is === 'checked' ? line.check : line
  const minutes = line.is === 'checked' ? line.check.limitMinutes : line.limit
  const text = t(to === 'discharge-ended' ? 'limitToEnd' : 'limitToStart', { minutes })
  const limit = statedBy === 'order' ? `${text} (${byWhom(t, statedBy)})` : text
  if (line.is === 'uncountable') return `${limit} · ${t('clockNoBatching')}`
  return `${limit} · ${howItStands(t, line)}`
}

/** The short of it, beside the minutes: `6 min left`, `outside, at 118 min`. */
export const howItStands = (
  t: Words,
  line: Extract<LimitLine, { readonly is: 'checked' | 'running' }>,
): string => {
  if (line.is === 'checked')
    return t(line.check.verdict === 'inside' ? 'insideAt' : 'outsideAt', { minutes: line.check.minutes })
  return line.left >= 0 ? t('minutesLeft', { minutes: line.left }) : t('minutesPast', { minutes: -line.left })
}
