import { QUANTITY_TEXT } from '../../api/domain/units.ts'

const VULGAR: Readonly<Record<string, string>> = { '¼': '1/4', '½': '1/2', '¾': '3/4' }

/**
 * A comma before one or two digits, or after a nought, is a decimal comma: `8,5`, `0,125`. `3,620` may be three thousand
 * and more or three and a bit, so nobody guesses: it stays as it is and can't be read.
 */
export const withDecimalPoint = (text: string): string =>
  text.replace(/^(-?\d+),(\d{1,2})$/, '$1.$2').replace(/^(-?0),(\d{3})$/, '$1.$2')

/**
 * A quantity as it is typed or pasted, written as entries hold it: `8,5` is `8.5`, and `18½`, `18-1/2` and `18 1/2` are
 * one. Undefined where it can't be read.
 */
export const readQuantity = (text: string): string | undefined => {
  const tidy = withDecimalPoint(text.trim().replace(/\s+/g, ' '))
    .replace(/^(\d*)[ -]?([¼½¾])$/, (_, whole: string, part: string) => `${whole} ${VULGAR[part]}`.trim())
    .replace(/^(\d+)-(\d+\/\d+)$/, '$1 $2')
  return QUANTITY_TEXT.test(tidy) ? tidy : undefined
}

/** What was read, where it is not what was typed: then it is shown, so that nothing is changed unseen. */
export const readOtherwise = (text: string): string | undefined => {
  const read = readQuantity(text)
  return read === text.trim().replace(/\s+/g, ' ') ? undefined : read
}
