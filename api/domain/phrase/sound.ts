import type { Token } from './tokens.ts'
import { FRACTIONS, NUMBER_WORDS } from './vocabulary/number-words.ts'

/**
 * Words that a recogniser writes for others that sound the same, put right where their neighbours leave no doubt.
 * Seen with our own recordings of synthetic voices, or expected by ear; no source.
 */
const DIGITS: Readonly<Record<string, string>> = {
  for: 'four',
  fore: 'four',
  to: 'two',
  too: 'two',
  won: 'one',
  ate: 'eight',
  free: 'three',
  or: 'oh',
  o: 'oh',
  sick: 'six',
  tin: 'ten',
  tree: 'three',
  owe: 'oh',
  fife: 'five',
  nein: 'nine',
}

const CUES: Readonly<Record<string, string>> = {
  slum: 'slump',
  slim: 'slump',
  swamp: 'slump',
  some: 'slump',
  sump: 'slump',
  clump: 'slump',
  plump: 'slump',
  slumped: 'slump',
  lump: 'slump',
}
const TRUCKS = new Set(['track', 'trot', 'trucks', 'trunk', 'struck'])
const BATCHED = new Set([
  'match',
  'matched',
  'perched',
  'bash',
  'bashed',
  'badged',
  'patched',
  'matches',
  'latched',
])

const isNumberToken = (token: Token | undefined): boolean =>
  token !== undefined &&
  (token.is === 'digits' || (token.is === 'word' && NUMBER_WORDS.has(token.text) && token.text !== 'once'))
const PARTS = /^(?:half|quarter|quarters|medio|media|cuarto|cuartos|hundred)$/
const isSound = (token: Token | undefined): boolean =>
  token?.is === 'word' && Object.hasOwn(DIGITS, token.text)
const ends = (token: Token | undefined): boolean => token === undefined || token.is === 'mark'
const UNIT = /^(?:yards?|gallons?|inch|inches|percent|degrees|yardas?|galones|pulgadas)$/
const CODE = /^(?:truck|ticket|camion|boleta|number)$/
const NUMBERED = /^(?:slump|air|cone|pot|concrete|mud|water|added|load|wind|humidity)$/

/** The same words with the misheard ones put right. Linear; changes nothing that reads well as it is. */
export const bySound = (tokens: readonly Token[]): Token[] => {
  const out = tokens.map((token) => token)
  // Where nobody said a number, `for` and `to` and `a` are what they are.
  const numbered = tokens.some(
    (token) => isNumberToken(token) || (token.is === 'word' && PARTS.test(token.text)),
  )
  for (let i = 0; i < out.length; i++) {
    const word = out[i]!
    if (word.is !== 'word') continue
    const said = cueBySound(out, i) ?? (numbered ? digitBySound(out, i) : undefined)
    if (said !== undefined) out[i] = { ...word, text: said }
  }
  return out
}

const text = (tokens: readonly Token[], i: number): string => tokens[i]?.text ?? ''

const numberFollows = (tokens: readonly Token[], i: number): boolean => {
  const next = tokens[i + 1]
  if (isNumberToken(next)) return true
  return isSound(next) && (ends(tokens[i + 2]) || fractionAt(tokens, i + 2) || isNumberToken(tokens[i + 2]))
}

const fractionAt = (tokens: readonly Token[], i: number): boolean => {
  if (!/^(?:and|an|n)$/.test(text(tokens, i))) return false
  const at = /^(?:a|an|one|three)$/.test(text(tokens, i + 1)) ? i + 2 : i + 1
  return FRACTIONS.has(text(tokens, at))
}

const cueBySound = (tokens: readonly Token[], i: number): string | undefined => {
  const word = text(tokens, i)
  if (Object.hasOwn(CUES, word) && numberFollows(tokens, skipIs(tokens, i)))
    return slumpLike(tokens, i) ? 'slump' : undefined
  if (TRUCKS.has(word) && /^(?:first|second|third|this|that)$/.test(text(tokens, i - 1))) return 'truck'
  if (
    /^(?:slum|slim|swamp)$/.test(word) &&
    (isNumberToken(tokens[i - 1]) || FRACTIONS.has(text(tokens, i - 1)))
  )
    return 'slump'
  if (TRUCKS.has(word) && numberFollows(tokens, i) && word !== 'struck') return 'truck'
  if (
    BATCHED.has(word) &&
    (isNumberToken(tokens[i + 1]) || (text(tokens, i + 1) === 'at' && isNumberToken(tokens[i + 2])))
  )
    return 'batched'
  if (/^(?:there|their|are|heir|error|err)$/.test(word)) return airLike(tokens, i) ? 'air' : undefined
  if (word === 'shoots' || word === 'shoot')
    return text(tokens, i + 1) === 'empty' || text(tokens, i + 2) === 'empty' ? 'chutes' : undefined
  if (word === 'tick' && text(tokens, i + 1) === 'at') return 'ticket'
  if (word === 'side' || word === 'sight') return text(tokens, i - 1) === 'on' ? 'site' : undefined
  if (word === 'ten') return tempLike(tokens, i) ? 'temp' : undefined
  if (word === 'an' || word === 'at' || word === 'add')
    return word !== 'an' &&
      text(tokens, i + 1) === 'a' &&
      isNumberToken(tokens[i + 2]) &&
      /^gallons?$/.test(text(tokens, i + 3))
      ? 'added'
      : undefined
  return undefined
}

/** `concrete ten sixty-eight`, `outside ten's thirty-eight`, `ten on the concrete`. */
const tempLike = (tokens: readonly Token[], i: number): boolean => {
  if (/^(?:concrete|mud|mix|outside|air)$/.test(text(tokens, i - 1)))
    return isTens(tokens, skipIs(tokens, i) + 1)
  return (
    text(tokens, i + 1) === 'on' &&
    /^(?:concrete|mud)$/.test(text(tokens, i + 3)) &&
    isTens(tokens, i + (tokens[i + 4]?.is === 'mark' ? 5 : 4))
  )
}

const skipIs = (tokens: readonly Token[], i: number): number =>
  /^(?:is|s|was|of)$/.test(text(tokens, i + 1)) ? i + 1 : i

const isTens = (tokens: readonly Token[], i: number): boolean => {
  const token = tokens[i]
  if (token?.is === 'digits') return /^\d{2,3}$/.test(token.text)
  const number = NUMBER_WORDS.get(text(tokens, i))
  return number?.is === 'tens'
}

/** A small number and then an end, a fraction or another thing: not `some four guys`. */
const slumpLike = (tokens: readonly Token[], i: number): boolean => {
  const at = skipIs(tokens, i) + 1
  const after = at + 1
  const small =
    isSound(tokens[at]) ||
    (NUMBER_WORDS.get(text(tokens, at))?.value ?? 99) <= 10 ||
    (tokens[at]?.is === 'digits' && Number(tokens[at]!.text) <= 10)
  return (
    small &&
    (ends(tokens[after]) ||
      fractionAt(tokens, after) ||
      /^(?:inch|inches|air|concrete|to|and|point|temp|added)$/.test(text(tokens, after)))
  )
}

/** `there five point two`, `their six four`: air is said in tenths. */
const airLike = (tokens: readonly Token[], i: number): boolean => {
  const first = NUMBER_WORDS.get(text(tokens, i + 1))
  if (!first || first.value > 12 || first.value < 1) return false
  const point = text(tokens, i + 2) === 'point' && isNumberToken(tokens[i + 3])
  if (point) return true
  const tenths = NUMBER_WORDS.get(text(tokens, i + 2))
  return (
    tenths?.is === 'digit' &&
    (ends(tokens[i + 3]) || /^(?:concrete|slump|temp|mud|and|percent)$/.test(text(tokens, i + 3)))
  )
}

const digitBySound = (tokens: readonly Token[], i: number): string | undefined => {
  const word = text(tokens, i)
  if (word === 'a') return eightLike(tokens, i) ? 'eight' : undefined
  if (!Object.hasOwn(DIGITS, word)) return undefined
  const previous = tokens[i - 1]
  const next = tokens[i + 1]
  const before = previous?.text ?? ''
  // In the row of a ticket or a truck every such word is a digit.
  if (inCode(tokens, i)) return DIGITS[word]
  // `air six for`: a digit at the end of what was said.
  if (
    isNumberToken(previous) &&
    previous?.is === 'word' &&
    ends(next) &&
    /^(?:for|to|too)$/.test(word) &&
    !/^(?:five|ten|twenty|quarter)$/.test(before) &&
    i > 1
  )
    return DIGITS[word]
  if (/^(?:six|four)$/.test(text(tokens, i + 1)) && text(tokens, i + 2) === 'by') return DIGITS[word]
  // `running for to four and a half`.
  if (word === 'for' && text(tokens, i + 1) === 'to' && isNumberToken(tokens[i + 2])) return DIGITS[word]
  const clear = /^(?:free|ate|won|too|fore|sick|tree|fife)$/.test(word)
  const tens = NUMBER_WORDS.get(before)?.is === 'tens' && previous?.is === 'word'
  // `fifty-to`, `sixty ate`.
  if (tens && word !== 'or' && word !== 'o' && (tokens[i]!.joined || clear || ends(next))) return DIGITS[word]
  if (before === 'oh' && clear) return DIGITS[word]
  if (clear && (isNumberToken(previous) || isNumberToken(next)) && !(word === 'too' && !next))
    return DIGITS[word]
  // `at too`, `quarter after for`, `past free`; `batched for thirty`.
  if (
    /^(?:at|past|after|till|by|around|to)$/.test(before) &&
    /^(?:too|to|for|free|won|ate|fore)$/.test(word) &&
    (ends(next) || (isTensOrTeen(next) && before !== 'to'))
  )
    return DIGITS[word]
  if (
    /^(?:batched|loaded|here|arrived|empty|pouring|site|left)$/.test(before) &&
    word === 'for' &&
    isTensOrTeen(next)
  )
    return DIGITS[word]
  if (
    /^(?:load|carga)$/.test(before) &&
    (clear || (/^(?:to|for)$/.test(word) && (ends(next) || AFTER_LOAD.test(next!.text))))
  )
    return DIGITS[word]
  if (word === 'or' || word === 'o')
    return between(tokens, i) && /^(?:o)$/.test(word) ? 'oh' : clockOh(tokens, i) ? 'oh' : undefined
  if (fractionAt(tokens, i + 1) && !isNumberToken(previous)) return DIGITS[word]
  if (next && UNIT.test(next.text) && !isNumberToken(previous)) return DIGITS[word]
  if (
    NUMBERED.test(before) &&
    (ends(next) || (text(tokens, i + 1) === 'point' && isNumberToken(tokens[i + 2])))
  )
    return DIGITS[word]
  if ((before === 'is' || before === 's') && NUMBERED.test(text(tokens, i - 2)) && ends(next))
    return DIGITS[word]
  if (
    before === 'point' &&
    (word === 'for' || word === 'to' || word === 'too' || word === 'free' || word === 'won' || word === 'ate')
  )
    return DIGITS[word]
  if (text(tokens, i + 1) === 'point' && isNumberToken(tokens[i + 2])) return DIGITS[word]
  // A clock: `nine for ty` is beyond repair, `eight ate` is eight oh eight no more.
  if (/^(?:sick|tin|fife|nein|tree|owe)$/.test(word))
    return isNumberToken(previous) || isNumberToken(next) ? DIGITS[word] : undefined
  return undefined
}

const AFTER_LOAD =
  /^(?:at|was|is|got|s|had|has|took|slump|air|water|truck|ticket|batched|no|with|before|after|on|in|came|showed|arrived)$/

const isTensOrTeen = (token: Token | undefined): boolean => {
  const number = token?.is === 'word' ? NUMBER_WORDS.get(token.text) : undefined
  return number?.is === 'tens' || number?.is === 'teen'
}

const between = (tokens: readonly Token[], i: number): boolean =>
  isNumberToken(tokens[i - 1]) && isNumberToken(tokens[i + 1])

/** `seven or five` after an event: five past seven. */
const clockOh = (tokens: readonly Token[], i: number): boolean => {
  if (!between(tokens, i)) return false
  const back = text(tokens, i - 2)
  if (tokens[i - 2]?.is === 'mark' && ends(tokens[i + 2])) return true
  return /^(?:batched|batch|loaded|at|arrived|here|in|site|pouring|empty|job|started|out|left|done|up)$/.test(
    back,
  )
}

/** Whether the row that this word stands in began with a truck or a ticket, and has a digit on one side of it. */
const inCode = (tokens: readonly Token[], i: number): boolean => {
  let at = i - 1
  let rows = 0
  while (at >= 0 && rows < 9 && (isNumberToken(tokens[at]) || isSound(tokens[at]))) {
    at -= 1
    rows += 1
  }
  const cue =
    text(tokens, at) === 'number' ||
    text(tokens, at) === 's' ||
    text(tokens, at) === 'is' ||
    text(tokens, at) === 'at'
      ? text(tokens, at - 1)
      : text(tokens, at)
  if (!CODE.test(cue) && !CODE.test(text(tokens, at))) return false
  const next = tokens[i + 1]
  return (
    isNumberToken(next) ||
    (isSound(next) && rows > 0) ||
    (rows > 0 && (ends(next) || isNumberToken(tokens[i - 1])) && !/^(?:to|for|or)$/.test(text(tokens, i))) ||
    (rows > 0 && ends(next))
  )
}

/** `a` for eight: before a word for many, after a point, after tens with a hyphen, before a fraction. */
const eightLike = (tokens: readonly Token[], i: number): boolean => {
  const next = text(tokens, i + 1)
  const before = tokens[i - 1]
  if (/^(?:yards|gallons|inches|yds)$/.test(next)) return true
  if (/^(?:and|an)$/.test(next) && fractionAt(tokens, i + 1) && !isNumberToken(before)) return true
  if (before?.text === 'point' && isNumberToken(tokens[i - 2])) return true
  if (before && tokens[i]!.joined && NUMBER_WORDS.get(before.text)?.is === 'tens') return true
  return (
    isNumberToken(tokens[i + 1]) &&
    (inCode(tokens, i) || /^(?:batched|here|truck|ticket)$/.test(before?.text ?? '')) &&
    next !== 'hundred'
  )
}
