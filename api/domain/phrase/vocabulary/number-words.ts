/** How a number word takes part in a number. */
export type NumberWord = {
  readonly value: number
  readonly is: 'digit' | 'teen' | 'tens' | 'hundred' | 'hundreds' | 'thousand'
}

const list = (is: NumberWord['is'], words: Readonly<Record<string, number>>): [string, NumberWord][] =>
  Object.entries(words).map(([word, value]) => [word, { value, is }])

const ENGLISH = [
  ...list('digit', {
    zero: 0,
    oh: 0,
    one: 1,
    two: 2,
    three: 3,
    four: 4,
    five: 5,
    six: 6,
    seven: 7,
    eight: 8,
    nine: 9,
    niner: 9,
  }),
  ...list('teen', {
    ten: 10,
    eleven: 11,
    twelve: 12,
    thirteen: 13,
    fourteen: 14,
    fifteen: 15,
    sixteen: 16,
    seventeen: 17,
    eighteen: 18,
    nineteen: 19,
  }),
  ...list('tens', {
    twenty: 20,
    thirty: 30,
    forty: 40,
    fourty: 40,
    fifty: 50,
    sixty: 60,
    seventy: 70,
    eighty: 80,
    ninety: 90,
  }),
  ...list('hundred', { hundred: 100 }),
  ...list('thousand', { thousand: 1000 }),
]

const SPANISH = [
  ...list('digit', {
    cero: 0,
    uno: 1,
    dos: 2,
    tres: 3,
    cuatro: 4,
    cinco: 5,
    seis: 6,
    siete: 7,
    ocho: 8,
    nueve: 9,
  }),
  ...list('teen', {
    diez: 10,
    once: 11,
    doce: 12,
    trece: 13,
    catorce: 14,
    quince: 15,
    dieciseis: 16,
    diecisiete: 17,
    dieciocho: 18,
    diecinueve: 19,
    veintiun: 21,
    veintiuno: 21,
    veintiuna: 21,
    veintidos: 22,
    veintitres: 23,
    veinticuatro: 24,
    veinticinco: 25,
    veintiseis: 26,
    veintisiete: 27,
    veintiocho: 28,
    veintinueve: 29,
  }),
  ...list('tens', {
    veinte: 20,
    treinta: 30,
    cuarenta: 40,
    cincuenta: 50,
    sesenta: 60,
    setenta: 70,
    ochenta: 80,
    noventa: 90,
  }),
  ...list('hundreds', {
    cien: 100,
    ciento: 100,
    doscientos: 200,
    trescientos: 300,
    cuatrocientos: 400,
    quinientos: 500,
    seiscientos: 600,
    setecientos: 700,
    ochocientos: 800,
    novecientos: 900,
  }),
  ...list('thousand', { mil: 1000 }),
]

/** Number words of both languages at once: crews mix them. `once` is settled by its neighbours. */
export const NUMBER_WORDS: ReadonlyMap<string, NumberWord> = new Map([...ENGLISH, ...SPANISH])
export const SPANISH_NUMBERS: ReadonlySet<string> = new Set(SPANISH.map(([word]) => word))

/** Parts of one after a whole number: `and a half`, `y tres cuartos`. */
export const FRACTIONS: ReadonlyMap<string, number> = new Map([
  ['half', 1 / 2],
  ['quarter', 1 / 4],
  ['quarters', 1 / 4],
  ['eighth', 1 / 8],
  ['eighths', 1 / 8],
  ['third', 1 / 3],
  ['thirds', 1 / 3],
  ['medio', 1 / 2],
  ['media', 1 / 2],
  ['cuarto', 1 / 4],
  ['cuartos', 1 / 4],
  ['octavos', 1 / 8],
])

export const ORDINALS: ReadonlyMap<string, number> = new Map([
  ['first', 1],
  ['1st', 1],
  ['second', 2],
  ['2nd', 2],
  ['third', 3],
  ['3rd', 3],
  ['fourth', 4],
  ['4th', 4],
  ['fifth', 5],
  ['sixth', 6],
  ['seventh', 7],
  ['eighth', 8],
  ['primer', 1],
  ['primera', 1],
  ['primero', 1],
  ['segundo', 2],
  ['segunda', 2],
  ['tercer', 3],
  ['tercera', 3],
  ['tercero', 3],
  ['cuarto', 4],
  ['cuarta', 4],
  ['quinto', 5],
  ['quinta', 5],
])
