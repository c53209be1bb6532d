import type { Chance } from '../../../kit/chance.ts'

/** What recognisers wrote for what was said, with synthetic voices and made-up drum noise; no real voice was measured. */
const HEARD: readonly (readonly [RegExp, readonly string[]])[] = [
  [/\bslump\b/gi, ['slum', 'slim', 'some', 'swamp']],
  [/\btruck\b/gi, ['track', 'trot']],
  [/\bfour\b/gi, ['for']],
  [/\btwo\b/gi, ['to', 'too']],
  [/\bthree\b/gi, ['free']],
  [/\boh\b/gi, ['or']],
  [/\bbatched\b/gi, ['batch', 'match', 'perched']],
  [/\badded a\b/gi, ['at a', 'add a']],
  [/\bon site\b/gi, ['on side', 'on sight']],
  [/\btemp\b/gi, ['ten']],
  [/\bair\b/gi, ['there', 'their', 'are']],
  [/\bticket\b/gi, ['tick at']],
  [/\bdischarge\b/gi, ['this charge']],
  [/\beight\b/gi, ['a', 'ate']],
  [/\bfifteen\b/gi, ['fifty']],
  [/\bfive\b/gi, ['nine']],
]

/**
 * A sentence as a recogniser might write it: each confusable word is changed with the given chance, and then each word is
 * dropped with a chance of its own. Recognisers write few marks, so most of those go too.
 */
export const mishear = (said: string, chance: Chance, confuse: number, drop: number): string => {
  let out = said
  for (const [word, heard] of HEARD)
    out = out.replace(word, (was) => (chance.chance(confuse) ? chance.pick(heard) : was))
  return out
    .split(' ')
    .filter(() => !chance.chance(drop))
    .join(' ')
}
