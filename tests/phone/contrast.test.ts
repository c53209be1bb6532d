import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync(new URL('../../web/style.css', import.meta.url), 'utf8')
const colours = (block: string): ReadonlyMap<string, string> =>
  new Map([...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map((match) => [match[1]!, match[2]!]))
/** The four grounds of style.css; each names what it changes of the day's. */
const blockOf = (selector: string): string => {
  const start = css.indexOf(`${selector} {`)
  return css.slice(start, css.indexOf('}', start))
}
const DAY = colours(blockOf(':root'))
const grounds = ['noon', 'night', 'dawn'].map(
  (ground) => [ground, new Map([...DAY, ...colours(blockOf(`:root[data-ground="${ground}"]`))])] as const,
)

/** Which text stands on which ground, by the names in style.css. */
const TEXTS = [
  ['ink', 'slab'],
  ['ink', 'tag'],
  ['ink', 'board'],
  ['soft', 'tag'],
  ['chalk', 'tag'],
  ['chalk', 'slab'],
  ['rust', 'tag'],
  ['rust', 'slab'],
  ['press-ink', 'press'],
  ['alarm-ink', 'alarm'],
] as const

/** Edges of what can be touched, and marks, against what they lie on. */
const EDGES = [
  ['edge', 'tag'],
  ['edge', 'slab'],
  ['chalk', 'tag'],
  ['rust', 'tag'],
] as const

/** WCAG 2.2, relative luminance and contrast ratio. */
const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
}
const contrast = (a: string, b: string): number => {
  const [dim, bright] = [luminance(a), luminance(b)].sort((x, y) => x - y)
  return (bright! + 0.05) / (dim! + 0.05)
}

describe.each([['day', DAY] as const, ...grounds])(
  '[contrast] read at noon and before dawn: the ground of %s',
  (_, theme) => {
    test.each(TEXTS)('[contrast] %s on %s is 7 to 1 or more', (text, ground) => {
      expect(contrast(theme.get(text)!, theme.get(ground)!)).toBeGreaterThanOrEqual(7)
    })
    test.each(EDGES)('[contrast] %s on %s is 3 to 1 or more', (edge, ground) => {
      expect(contrast(theme.get(edge)!, theme.get(ground)!)).toBeGreaterThanOrEqual(3)
    })
  },
)
