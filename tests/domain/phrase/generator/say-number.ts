import type { Chance } from '../../../kit/chance.ts'

/** Numbers as people say them. Written apart from the parser's own tables, so that a slip in one shows in the other. */
const EN =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  )
const EN_TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety']
const ES =
  'cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve'.split(
    ' ',
  )
const ES_TENS = ['', '', '', 'treinta', 'cuarenta', 'cincuenta', 'sesenta', 'setenta', 'ochenta', 'noventa']

export type Tongue = 'en' | 'es'

/** Whole numbers below a hundred. */
export const whole = (n: number, tongue: Tongue): string => {
  if (tongue === 'en') {
    if (n < 20) return EN[n]!
    return n % 10 === 0 ? EN_TENS[n / 10]! : `${EN_TENS[Math.floor(n / 10)]}-${EN[n % 10]}`
  }
  if (n < 30) return ES[n]!
  return n % 10 === 0 ? ES_TENS[n / 10]! : `${ES_TENS[Math.floor(n / 10)]} y ${ES[n % 10]}`
}

/** Wholes and quarters: `four and a half`, `cuatro y tres cuartos`. */
export const quarters = (value: number, tongue: Tongue, chance: Chance): string => {
  const base = Math.floor(value)
  const part = value - base
  const said = whole(base, tongue)
  if (part === 0) return tongue === 'en' && chance.chance(0.1) ? `${said} even` : said
  if (tongue === 'es')
    return `${said} y ${part === 0.25 ? 'cuarto' : part === 0.5 ? 'medio' : 'tres cuartos'}`
  if (part === 0.25) return `${said} and ${chance.pick(['a quarter', 'a quarter', 'one quarter'])}`
  if (part === 0.5) return `${said} and a half`
  return `${said} and three quarters`
}

/** Tenths: `five point two`, `five two`, `cinco punto dos`. */
export const tenths = (value: number, tongue: Tongue, chance: Chance): string => {
  const base = Math.floor(value)
  const digit = Math.round((value - base) * 10)
  if (digit === 0)
    return chance.chance(0.2) && tongue === 'en' ? `${whole(base, tongue)} flat` : whole(base, tongue)
  if (digit === 5 && chance.chance(0.3))
    return `${whole(base, tongue)} ${tongue === 'en' ? 'and a half' : 'y medio'}`
  if (tongue === 'es') return `${whole(base, tongue)} punto ${whole(digit, tongue)}`
  return `${whole(base, tongue)} ${chance.chance(0.6) ? 'point ' : ''}${whole(digit, tongue)}`
}

/** A ticket digit by digit, with `oh` for nought in English. */
export const digits = (code: string, tongue: Tongue, chance: Chance): string =>
  [...code]
    .map((d) =>
      d === '0' && tongue === 'en' ? (chance.chance(0.85) ? 'oh' : 'zero') : whole(Number(d), tongue),
    )
    .join(' ')

/** A truck in pairs: `two eighteen`, `one oh six`, `forty-one`. */
export const pairs = (code: string, tongue: Tongue, chance: Chance): string => {
  const n = Number(code)
  if (n < 100) return whole(n, tongue)
  const rest = n % 100
  const head = Math.floor(n / 100)
  if (tongue === 'es' && head < 10 && chance.chance(0.5)) {
    const hundreds = [
      '',
      rest === 0 ? 'cien' : 'ciento',
      'doscientos',
      'trescientos',
      'cuatrocientos',
      'quinientos',
      'seiscientos',
      'setecientos',
      'ochocientos',
      'novecientos',
    ][head]!
    return rest === 0 ? hundreds : `${hundreds} ${whole(rest, 'es')}`
  }
  if (rest === 0) return tongue === 'en' ? `${whole(head, 'en')} hundred` : digits(code, 'es', chance)
  if (rest < 10) return `${whole(head, tongue)} ${tongue === 'en' ? 'oh' : 'cero'} ${whole(rest, tongue)}`
  return `${whole(head, tongue)} ${whole(rest, tongue)}`
}

/** A time of day in the hours when slabs are poured: 6 to 11 before noon, 12 to 5 after it. */
export const clock = (hour: number, minute: number, tongue: Tongue, chance: Chance): string => {
  const next = hour === 12 ? 1 : hour + 1
  if (tongue === 'es') {
    const las = (h: number) => (h === 1 ? 'la una' : `las ${whole(h, 'es')}`)
    if (minute === 0) return `a ${las(hour)}`
    if (minute === 15 && chance.chance(0.7)) return `a ${las(hour)} y cuarto`
    if (minute === 30) return `a ${las(hour)} y media`
    if (minute >= 45 && minute % 5 === 0 && chance.chance(0.6)) {
      const left = minute === 45 ? 'cuarto' : whole(60 - minute, 'es')
      return chance.chance(0.5) ? `a ${las(next)} menos ${left}` : `${left} para ${las(next)}`
    }
    return `a ${las(hour)} ${chance.chance(0.6) || minute < 10 ? 'y ' : ''}${whole(minute, 'es')}`
  }
  const h = whole(hour, 'en')
  if (minute === 0) return chance.pick([`at ${h}`, `at ${h} o'clock`])
  const at = chance.chance(0.7) ? 'at ' : ''
  if (minute === 15 && chance.chance(0.3)) return `${at}quarter ${chance.pick(['after', 'past'])} ${h}`
  if (minute === 30 && chance.chance(0.2)) return `${at}half past ${h}`
  if (minute === 45 && chance.chance(0.3))
    return `${at}quarter ${chance.pick(['to', 'till', 'of'])} ${whole(next, 'en')}`
  if ((minute === 10 || minute === 20 || minute === 5) && chance.chance(0.2))
    return `${at}${whole(minute, 'en')} ${chance.pick(['after', 'past'])} ${h}`
  if ((minute === 50 || minute === 40 || minute === 55) && chance.chance(0.2))
    return `${at}${whole(60 - minute, 'en')} ${chance.pick(['till', 'to'])} ${whole(next, 'en')}`
  return minute < 10 ? `${at}${h} oh ${whole(minute, 'en')}` : `${at}${h} ${whole(minute, 'en')}`
}
