import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/**
 * What axe-core finds on the screen as it stands, a line each: WCAG 2.2 A and AA, its own best practices, and text's contrast
 * of 7 to 1 (WCAG 1.4.6).
 */
export const axeFindings = async (page: Page): Promise<string[]> => {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE)
  return page.evaluate(async () => {
    type Node = { html: string; failureSummary?: string }
    type Found = { violations: { id: string; nodes: Node[] }[] }
    const { axe } = globalThis as unknown as { axe: { run: (of: unknown, how: unknown) => Promise<Found> } }
    const found = await axe.run(document, { rules: { 'color-contrast-enhanced': { enabled: true } } })
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${(node.failureSummary ?? '').slice(0, 200)}`),
    )
  })
}

/** Targets that are smaller than 56 px either way, or nearer than 8 px to the next; of one layer, since layers scroll apart. */
export const smallTargets = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const LAYERS = [
      'dialog[open] .sheet-head',
      'dialog[open] .sheet-body',
      'dialog[open] .foot',
      'dialog[open] .keypad',
      '.dock',
      'main',
      '.strip',
    ]
    const TARGETS = 'button, a[href], label.button, .tag-option span, input[type=text], textarea'
    const open = document.querySelector('dialog[open]') !== null
    const wrong: string[] = []
    for (const layer of LAYERS) {
      if (open && !layer.startsWith('dialog')) continue
      const all = [...(document.querySelector(layer)?.querySelectorAll<HTMLElement>(TARGETS) ?? [])]
        // What stays at the sheet's end lies over what scrolls under it.
        .filter((e) => e.checkVisibility() && (layer.endsWith('.foot') || !e.closest('.foot')))
        .map((e) => ({ e, box: e.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0)
      for (const { e, box } of all)
        if (box.width < 55.5 || box.height < 55.5)
          wrong.push(`${Math.round(box.width)}×${Math.round(box.height)} ${e.outerHTML.slice(0, 110)}`)
      for (const [i, a] of all.entries())
        for (const b of all.slice(i + 1)) {
          if (a.e.contains(b.e) || b.e.contains(a.e)) continue
          const across = Math.max(a.box.left, b.box.left) - Math.min(a.box.right, b.box.right)
          const down = Math.max(a.box.top, b.box.top) - Math.min(a.box.bottom, b.box.bottom)
          if (Math.max(across, down) < 7.5)
            wrong.push(
              `${Math.round(Math.max(across, down))} px between ${a.e.outerHTML.slice(0, 80)} and ${b.e.outerHTML.slice(0, 80)}`,
            )
        }
    }
    return wrong
  })
