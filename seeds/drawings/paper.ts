/** A drawing is the inside of an SVG of this size. */
export const WIDTH = 960
export const HEIGHT = 720
/** Each says of itself that it is none of anything real. */
export const MARK = 'DRAWN FOR THE DEMO'

const INK = '#1d2126'

/** The whole picture: the drawing, what it shows in words, and the mark. */
export const framed = (caption: string, inside: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" font-family="Atkinson Hyperlegible">
${inside}
<rect y="632" width="${WIDTH}" height="88" fill="#ffffff"/>
${words(24, 668, caption, 30)}
${words(24, 704, MARK, 30, { weight: 700 })}
</svg>`

export const words = (
  x: number,
  y: number,
  text: string,
  size: number,
  more: { readonly weight?: number; readonly fill?: string; readonly anchor?: string } = {},
): string =>
  `<text x="${x}" y="${y}" font-size="${size}" font-weight="${more.weight ?? 400}" fill="${more.fill ?? INK}" text-anchor="${more.anchor ?? 'start'}" xml:space="preserve">${escaped(text)}</text>`

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')

export const box = (x: number, y: number, w: number, h: number, fill: string, stroke = 'none'): string =>
  `<rect x="${x}" y="${y}" width="${w}" height="${h}" fill="${fill}" stroke="${stroke}" stroke-width="4"/>`

export const shape = (points: string, fill: string, stroke = 'none'): string =>
  `<polygon points="${points}" fill="${fill}" stroke="${stroke}" stroke-width="4"/>`

export const stroke = (d: string, color: string, width: number): string =>
  `<path d="${d}" fill="none" stroke="${color}" stroke-width="${width}" stroke-linecap="round"/>`

/** The same mark many times over, by a rule instead of by chance, so that a drawing is the same each time. */
export const many = (count: number, mark: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => mark(i)).join('')
