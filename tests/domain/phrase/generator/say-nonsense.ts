import type { Chance } from '../../../kit/chance.ts'

/** Things of the trade and everyday words, with no number, no event and no no among them. */
const WORDS =
  'slump air concrete truck ticket load yards gallons water humidity temperature cone pot mud inches percent degrees the a on of driver hose shovel boss please maybe about really street house sun wife lunch radio red heavy slowly between revenimiento aire concreto camión boleta carga yardas galones agua humedad la el de en muy calle casa sol'.split(
    ' ',
  )
/** Without e, i, o and w no number or event of either language can come about by chance. */
const LETTERS = 'abcdfghjklmnpqrstuvxyzáúñ\'’.,;:!? ()-/"\\{}[]<>@#$%^&*_+=~`|\n\t¿¡°😀漢字Ωש'

const letters = [...LETTERS]

/** Random characters, or words that mean nothing together: no number, no event and no no is among them. */
export const nonsense = (chance: Chance): string => {
  const length = 1 + chance.below(12)
  return chance.chance(0.5)
    ? Array.from({ length: length * 3 }, () => chance.pick(letters)).join('')
    : Array.from({ length }, () => chance.pick(WORDS)).join(chance.chance(0.8) ? ' ' : ', ')
}
