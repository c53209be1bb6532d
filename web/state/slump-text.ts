/** A slump as it is picked with a knuckle: whole inches, then a quarter or none. */
export type SlumpPick = { readonly whole?: number; readonly quarter?: '0' | '1/4' | '1/2' | '3/4' }

/** `4 1/4`, `4`, `3/4`; undefined until a whole number was picked. */
export const writeSlumpText = ({ whole, quarter = '0' }: SlumpPick): string | undefined => {
  if (whole === undefined) return undefined
  if (quarter === '0') return String(whole)
  return whole === 0 ? quarter : `${whole} ${quarter}`
}

/** The picks that write this text; of other spellings, such as `4.25`, nothing is picked. */
export const readSlumpText = (text: string): SlumpPick => {
  const match = /^(?:(\d+))?(?: ?(1\/4|1\/2|3\/4))?$/.exec(text)
  if (!match || text === '') return {}
  const quarter = match[2] as SlumpPick['quarter']
  return { whole: Number(match[1] ?? 0), ...(quarter ? { quarter } : {}) }
}
