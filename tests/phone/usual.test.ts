import { describe, expect, test } from 'vitest'
import type { Unit } from '../../api/domain/units.ts'
import { en } from '../../api/domain/words/en.ts'
import { enEntries } from '../../api/domain/words/en-entries.ts'
import type { Words } from '../../web/state/language.ts'
import { unusualText } from '../../web/state/usual.ts'

/** The key and what it is filled with, as a form would say it. */
const t: Words = Object.assign((key: string, parts: object = {}) => `${key} ${JSON.stringify(parts)}`, {
  entry: () => enEntries,
}) as Words

// The ranges are the fields' own, beside each kind: *common practice, no source*.
describe('[forms] a number that a form asks by hand', () => {
  test.each([
    ['water.added', 'amount', '99999', 'gal'],
    ['water.added', 'amount', '41', 'gal'],
    ['water.added', 'amount', '400', 'L'],
    ['concrete.ordered', 'yards', '0', 'yd3'],
    ['concrete.ordered', 'yards', '1650', 'yd3'],
    ['ticket.recorded', 'yards', '80', 'yd3'],
  ] as const)('[forms] %s %s of %s %s is to be looked at again', (kind, member, text, unit) => {
    expect(unusualText(t, [kind, member], text, unit as Unit)).toMatch(/^unusual /)
    expect(en.unusual).toContain('{from}')
  })

  test.each([
    ['water.added', 'amount', '12', 'gal'],
    ['water.added', 'amount', '40', 'gal'],
    ['water.added', 'amount', '45', 'L'],
    ['water.added', 'amount', 'twelve', 'gal'],
    ['concrete.ordered', 'yards', '18½', 'yd3'],
    ['ticket.recorded', 'yards', '8,5', 'yd3'],
    ['ticket.recorded', 'number', '71340', 'one'],
  ] as const)('[forms] %s %s of %s %s asks nothing', (kind, member, text, unit) => {
    expect(unusualText(t, [kind, member], text, unit as Unit)).toBeUndefined()
  })
})
