import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

const css = readFileSync(new URL('../../web/style.css', import.meta.url), 'utf8')
const colours = (block: string): Map<string, string> =>
  new Map([...block.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map((match) => [match[1]!, match[2]!]))
const [light, dark] = css.split('@media (prefers-color-scheme: dark)')

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

describe.each([
  ['light', colours(light!)],
  ['dark', colours(dark!)],
] as const)('read at noon and before dawn: the %s theme', (_, theme) => {
  test.each(TEXTS)('%s on %s is 7 to 1 or more', (text, ground) => {
    expect(contrast(theme.get(text)!, theme.get(ground)!)).toBeGreaterThanOrEqual(7)
  })
})
