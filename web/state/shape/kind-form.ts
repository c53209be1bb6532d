import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { Answer, Answers } from './answer.ts'
import { type FieldShape, fieldsOfKind, type Shape } from './shape.ts'

/** What a kind's shape doesn't say of its form. Everything here has a plain answer for a kind that is not listed. */
type FormOfKind = {
  /** Members that are not needed but asked first, above "more". */
  readonly first?: readonly string[]
  /** Members whose answers stay when another is logged right after: who tests, with what, on which part. */
  readonly carried?: readonly string[]
  /** Members, at any depth, that are new ids and nobody's answer. */
  readonly fresh?: readonly string[]
  /** Its clock times lie ahead. */
  readonly ahead?: true
  /** When it was said makes no difference to anyone: not asked. */
  readonly timeless?: true
  /** There is one of it: no "save and another". */
  readonly once?: true
}

const FORMS: { readonly [K in Kind]?: FormOfKind } = {
  'customer.named': { once: true, timeless: true, first: ['phone'] },
  'site.addressed': { once: true, timeless: true },
  'placement.planned': { timeless: true, fresh: ['placement', 'part'] },
  'mix.ordered': {
    once: true,
    timeless: true,
    first: ['code', 'strength', 'air', 'slump', 'maxWaterCement', 'limit', 'siteWater'],
  },
  'concrete.held': { once: true, timeless: true },
  'editions.chosen': {
    once: true,
    timeless: true,
    first: ['discharge', 'tolerances', 'coldWeather', 'placing', 'hot', 'threshold'],
  },
  'balance.ordered': { first: ['needed', 'how'] },
  'delivery.promised': { once: true, ahead: true, first: ['spacing'] },
  'base.checked': { first: ['part', 'remark'], carried: ['part'] },
  'depth.measured': { first: ['part', 'where'], carried: ['part'] },
  'weather.observed': {
    first: ['air', 'humidity', 'wind', 'gust'],
    carried: ['source', 'station', 'distance', 'windHeight'],
  },
  'finish.done': { first: ['phase', 'parts', 'where'], carried: ['parts'] },
  'cure.applied': { first: ['product', 'amount', 'area', 'parts'] },
  'cover.placed': { first: ['parts', 'where'] },
  'joint.sawn': { first: ['depth', 'spacing', 'parts'] },
  'slab.served': { first: ['product', 'parts'] },
  'air.measured': { carried: ['method', 'aggregateCorrection', 'taking'] },
  'flow.measured': { carried: ['taking'] },
  'density.measured': { carried: ['taking'] },
  'temperature.measured': { first: ['part'], carried: ['taking'] },
  'cylinders.made': { first: ['size', 'label', 'doneAt'], carried: ['taking'] },
  'strength.reported': { timeless: true, first: ['laboratory', 'reportedAt'], carried: ['laboratory'] },
  'load.rejected': { once: true, first: ['words', 'who'] },
  'load.accepted': { once: true, first: ['who'] },
  'limit.waived': { once: true, first: ['words'] },
  'ticket.signed': { once: true, first: ['curb'] },
  'concrete.left': { once: true, first: ['to'] },
  'admixture.added': { first: ['asked', 'added'] },
  'loads.joined': { once: true, timeless: true },
  'water.added': { first: ['stage', 'inDrum', 'asked'], carried: [] },
}
const PLAIN: FormOfKind = {}

export const formOf = (kind: Kind): FormOfKind => FORMS[kind] ?? PLAIN

/** The fields of a kind's form: those asked first and those behind "more". The load is known where the form is opened. */
export const formFields = (
  kind: Kind,
): { readonly first: readonly FieldShape[]; readonly more: readonly FieldShape[] } => {
  const { first = [], fresh = [] } = formOf(kind)
  const asked = fieldsOfKind(kind).filter(({ name }) => name !== 'load' && !fresh.includes(name))
  const isFirst = ({ name, optional }: FieldShape) => !optional || first.includes(name)
  const more = asked.filter((field) => !isFirst(field))
  // A fold that hides one short question costs more than the question.
  const folds = more.length > 1 || more.some(({ shape }) => shape.is === 'fields')
  return folds ? { first: asked.filter(isFirst), more } : { first: asked, more: [] }
}

/** A new form's answers: none, but for new ids; of rows that need one, the first stands open. */
export const startAnswers = (
  fields: readonly FieldShape[],
  fresh: readonly string[],
  newId: () => string,
): Answers =>
  Object.fromEntries(
    fields.flatMap(({ name, optional, shape }): [string, Answer][] => {
      if (shape.is === 'id' && fresh.includes(name)) return [[name, { is: 'picked', value: newId() }]]
      if (shape.is !== 'rows' || shape.of.is === 'id' || optional) return []
      return [[name, { is: 'rows', rows: [startRow(shape.of, fresh, newId)] }]]
    }),
  )

export const startRow = (of: Shape, fresh: readonly string[], newId: () => string): Answer | undefined =>
  of.is === 'fields' ? { is: 'fields', of: startAnswers(of.fields, fresh, newId) } : undefined

const TESTER = ['taker', 'employer', 'instrument', 'certificate']

/** What stays in the form for the next one of the same kind. When and where a sample was taken is asked anew. */
export const carriedAnswers = (kind: Kind, answers: Answers): Answers => {
  const { carried = [] } = formOf(kind)
  return Object.fromEntries(
    carried.flatMap((name): [string, Answer][] => {
      const answer = answers[name]
      if (answer === undefined) return []
      if (name !== 'taking' || answer.is !== 'fields') return [[name, answer]]
      const of = Object.fromEntries(Object.entries(answer.of).filter(([key]) => TESTER.includes(key)))
      return [[name, { is: 'fields', of }]]
    }),
  )
}
