/** A word, a number in digits, or a mark of a sentence. `text` is folded: lower case, no accents. */
export type Token = {
  readonly is: 'word' | 'digits' | 'mark'
  readonly text: string
  /** Where it stands in what was said. */
  readonly from: number
  readonly to: number
  /** Written without a space before it: `four-inch`, `10gal`. */
  readonly joined: boolean
}

const PIECE =
  /\d{1,2}:\d{2}|\d+[¼½¾⅛⅜⅝⅞]|[¼½¾⅛⅜⅝⅞]|\d{1,3}(?:,\d{3})+(?!\d)|\d+\/\d+|\d*\.\d+|\d+|[\p{L}][\p{L}\p{M}]*(?:['’ʼ][\p{L}\p{M}]+)*|[.,;:!?¿¡"″“”'’′%°#&+/|–—\n-]/gu

const SPLIT: Readonly<Record<string, readonly string[]>> = {
  gonna: ['going', 'to'],
  wanna: ['want', 'to'],
  gotta: ['got', 'to'],
  thats: ['that', 's'],
  hes: ['he', 's'],
  shes: ['she', 's'],
  theyre: ['they', 're'],
  didnt: ['did', 'not'],
  dont: ['do', 'not'],
  doesnt: ['does', 'not'],
  havent: ['have', 'not'],
  hasnt: ['has', 'not'],
  isnt: ['is', 'not'],
  wasnt: ['was', 'not'],
  cant: ['can', 'not'],
  wont: ['will', 'not'],
  cannot: ['can', 'not'],
  del: ['de', 'el'],
  al: ['a', 'el'],
  tix: ['ticket'],
  tkt: ['ticket'],
  trk: ['truck'],
  slmp: ['slump'],
  til: ['till'],
  pa: ['para'],
  yds: ['yards'],
  gals: ['gallons'],
}

const MARKS: Readonly<Record<string, string>> = {
  '“': '"',
  '”': '"',
  '″': '"',
  '’': "'",
  '′': "'",
  '/': ',',
  '|': ',',
  '–': '-',
  '—': '-',
}

export const fold = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()

/** Contractions in their parts: `didn't` is `did not`, `slump's` is `slump s`. */
const parts = (word: string): readonly string[] => {
  if (!word.includes("'")) return Object.hasOwn(SPLIT, word) ? SPLIT[word]! : [word]
  if (word === "o'clock") return ['oclock']
  if (word === "can't") return ['can', 'not']
  if (word === "won't") return ['will', 'not']
  if (word === "y'all") return ['yall']
  if (word.endsWith("n't")) return [word.slice(0, -3), 'not']
  const pieces = word.split("'").filter((piece) => piece !== '')
  return pieces.flatMap((piece) => (Object.hasOwn(SPLIT, piece) ? SPLIT[piece]! : [piece]))
}

/** The pieces of what was said, in order. Linear in its length; never fails. */
export const readTokens = (said: string): Token[] => {
  const tokens: Token[] = []
  let end = -1
  for (const match of said.matchAll(PIECE)) {
    const raw = match[0]
    const from = match.index
    const to = from + raw.length
    const joined = from === end
    end = to
    if (/^[\d.¼½¾⅛⅜⅝⅞]/u.test(raw) && raw !== '.')
      tokens.push({ is: 'digits', text: raw.replaceAll(',', ''), from, to, joined })
    else if (/^\p{L}/u.test(raw))
      for (const [i, text] of parts(fold(raw).replaceAll(/[’ʼ]/g, "'")).entries())
        tokens.push({ is: 'word', text, from, to, joined: joined || i > 0 })
    else tokens.push({ is: 'mark', text: MARKS[raw] ?? raw, from, to, joined })
  }
  return joinAbbreviations(tokens)
}

/** `a.m.` and `p.m.`, however they are written, are one word each; an inner hyphen is no mark. */
const joinAbbreviations = (tokens: readonly Token[]): Token[] => {
  const out: Token[] = []
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!
    const next = tokens[i + 1]
    const third = tokens[i + 2]
    const half = token.text === 'a' || token.text === 'p'
    if (half && next?.text === '.' && next.joined && third?.text === 'm' && third.joined) {
      const dot = tokens[i + 3]
      const ends = dot?.text === '.' && dot.joined
      out.push({ ...token, text: `${token.text}m`, to: (ends ? dot : third).to })
      i += ends ? 3 : 2
    } else if (half && next?.text === 'm' && out.at(-1)?.is === 'digits') {
      out.push({ ...token, text: `${token.text}m`, to: next.to })
      i += 1
    } else if (token.text === '-') {
      // Between two words or digits it joins them; with spaces around it is a pause.
      if (!(token.joined && next?.joined)) out.push({ ...token, text: ',' })
    } else out.push(token)
  }
  return out
}
