import type { Key } from './PadKeys.tsx'

/** Digits picked on pads, written as entries hold them. Undefined while nothing that makes a number was touched. */

/** `6.4`: both the whole and its tenth are touched, since `6` and `6.0` are two readings. */
export const tenthsText = (whole: string | undefined, tenth: string | undefined): string | undefined =>
  whole === undefined || tenth === undefined ? undefined : `${whole}.${tenth}`

/** `63` of `60` and `3`; `8` where no tens were touched. */
export const sumText = (tens: string | undefined, ones: string | undefined): string | undefined =>
  tens === undefined && ones === undefined ? undefined : String(Number(tens ?? 0) + Number(ones ?? 0))

/** `4 1/2`, `1/2`, `4`. */
export const fractionText = (whole: string | undefined, fraction: string | undefined): string | undefined => {
  if (whole === undefined && fraction === undefined) return undefined
  if (fraction === undefined || fraction === '0') return whole ?? '0'
  return whole === undefined || whole === '0' ? fraction : `${whole} ${fraction}`
}

export const isZeroText = (text: string): boolean => text === '0'

export const HALVES: readonly Key[] = [{ value: '1/2', label: '½' }]
export const QUARTERS: readonly Key[] = [
  { value: '1/4', label: '¼' },
  { value: '1/2', label: '½' },
  { value: '3/4', label: '¾' },
]
