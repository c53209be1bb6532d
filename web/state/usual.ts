import type { Kind } from '../../api/domain/entry/registry.ts'
import type { Unit } from '../../api/domain/units.ts'
import type { Words } from './language.ts'
import { readQuantity } from './quantity-text.ts'
import { isPlain } from './shape/read.ts'
import { type FieldShape, fieldsOfKind, type Shape } from './shape/shape.ts'
import { showUnit } from './show.ts'

/**
 * What is said of a typed number that lies outside the range that its field plainly has, for a form that asks that field by
 * hand; undefined where it lies inside, can't be read, or the field has no such range. Nothing is refused for it.
 */
export const unusualText = <K extends Kind>(
  t: Words,
  [kind, member]: readonly [K, string],
  text: string,
  unit: Unit,
): string | undefined => {
  const read = readQuantity(text)
  const facts = factsOf(fieldsOfKind(kind).find(({ name }: FieldShape) => name === member)?.shape)
  if (read === undefined || !facts?.plain || !facts.unit) return undefined
  if (isPlain({ text: read, unit }, facts.unit, facts.plain)) return undefined
  const [from, to] = facts.plain
  return t('unusual', { from, to, unit: showUnit(t, facts.unit) })
}

/** A number may be one of several things that can be said: so much, none, not sure. */
const factsOf = (shape: Shape | undefined): Extract<Shape, { is: 'quantity' }>['facts'] => {
  if (shape?.is === 'quantity') return shape.facts
  if (shape?.is === 'given') return factsOf(shape.of)
  if (shape?.is === 'tagged') return shape.options.map(({ of }) => factsOf(of)).find((facts) => facts?.plain)
  return undefined
}
