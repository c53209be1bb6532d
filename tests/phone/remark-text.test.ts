import { expect, test } from 'vitest'
import { remarkMade } from '../../api/domain/entry/kinds/remark-made.ts'
import { REMARK_MOST, remarkOver, tidyRemark } from '../../web/state/remark-text.ts'

const holds = (text: string): boolean => remarkMade.today.safeParse({ remark: { lang: 'en', text } }).success

test.each([0, 1, 13])(
  'a remark that is %s characters too long is whole, and its excess is counted',
  (over) => {
    const text = 'x'.repeat(REMARK_MOST + over)
    expect(remarkOver(text)).toBe(over)
    expect(tidyRemark(text)).toBe(text)
    expect(holds(text)).toBe(over === 0)
  },
)

test('blanks at the ends and control characters don’t count', () => {
  expect(remarkOver(` ${'x'.repeat(REMARK_MOST)}\r\n\u0007`)).toBe(0)
})
