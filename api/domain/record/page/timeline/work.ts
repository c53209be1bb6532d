import type { RecordModel } from '../../model.ts'
import type { SaidModel } from '../../said.ts'
import { box, line, type Mark, words } from '../drawing.ts'
import { capital, type Speech } from '../speech.ts'
import type { Axis } from './axis.ts'
import { type Label, labelMarks, ROW } from './labels.ts'

type Done = SaidModel & {
  readonly text: string
  readonly parts: readonly string[] | undefined
  readonly where: string | undefined
}
type Row = { readonly label: string; readonly done: readonly Done[] }

/** The kinds of work in the order in which they are done, each with what was logged of it and where. */
const rowsOf = ({ job: { said } }: RecordModel, speech: Speech): Row[] => {
  const codes = speech.words.codes
  const of = (one: SaidModel & { readonly body: object }, text = ''): Done => {
    const { parts, where } = one.body as { parts?: readonly string[]; where?: string }
    return { ...one, text, parts, where }
  }
  const step = (name: (typeof said.finish)[number]['body']['step']): Row => ({
    label: capital(codes[name]),
    done: said.finish
      .filter(({ body }) => body.step === name)
      .map((one) => of(one, one.body.phase === undefined ? '' : codes[one.body.phase])),
  })
  return [
    step('strike-off'),
    step('float'),
    step('bleed-water-gone'),
    step('edging'),
    step('jointing'),
    step('broom'),
    {
      label: capital(speech.words.kinds['cure.applied']),
      done: said.cures.map((one) => of(one, one.body.product)),
    },
    {
      label: capital(speech.words.kinds['cover.placed']),
      done: said.covers.map((one) => of(one, `${codes[one.body.what]} ${codes[one.body.change]}`)),
    },
    {
      label: capital(speech.words.kinds['joint.sawn']),
      done: said.saws.map((one) => of(one, codes[one.body.phase])),
    },
    {
      label: capital(speech.words.kinds['rain.fell']),
      done: said.rain.map((one) => of(one, speech.body(one.body))),
    },
    {
      label: speech.say('recSurfaceTemperature'),
      done: said.temperatures
        .filter(({ body }) => body.of === 'surface')
        .map((one) => ({
          ...one,
          text: speech.value('temperature', one.body.temperature),
          parts: one.body.part === undefined ? undefined : [one.body.part],
          where: undefined,
        })),
    },
  ].filter(({ done }) => done.length > 0)
}

export const workTimes = (model: RecordModel, speech: Speech): string[] =>
  rowsOf(model, speech).flatMap(({ done }) => done.map(({ at }) => at))

/** How much of the work lies outside the drawing. */
export const workOutside = (model: RecordModel, axis: Axis, speech: Speech): number =>
  workTimes(model, speech).filter((at) => axis.x(at) === undefined).length

/** One kind of work from left to right; drawn from its own upper edge. */
export type Lane = { readonly height: number; readonly marks: (top: number) => Mark[] }

/** A lane for each kind of work; first when the loads discharged. */
export const workLanes = (model: RecordModel, axis: Axis, speech: Speech): Lane[] => {
  const lane = (label: string, height: number, marks: (top: number) => Mark[]): Lane => ({
    height,
    marks: (top) => [
      line([0, top], [axis.right, top], 6),
      ...words([0, top + 6], label, { room: axis.left - 10 }),
      ...marks(top),
    ],
  })
  const pours = model.job.loads.flatMap((load) => {
    const from = load.started.flatMap(({ at }) => axis.x(at) ?? [])[0]
    const to = load.ended.flatMap(({ at }) => axis.x(at) ?? []).at(-1)
    return from === undefined || to === undefined || to <= from ? [] : [{ from, to, n: load.ordinal }]
  })
  const discharge = lane(speech.say('recDrawnDischarge'), 40, (top) => [
    ...pours.map(({ from, to }) => box([from, top + 8], [Math.max(4, to - from), 22], 'dark', 0)),
    ...pourNumbers(pours, top),
  ])
  const work = rowsOf(model, speech).flatMap(({ label, done }): Lane[] => {
    const labels = labelsOf(done, axis, speech)
    if (labels.length === 0) return []
    const drawn = (top: number) =>
      labelMarks(labels, {
        edge: top,
        way: 'down',
        left: axis.left,
        right: axis.right,
        size: 68,
        crowd: (n) => speech.say('recDrawnCrowd', { n }),
      })
    return [lane(label, drawn(0).rows * ROW + 16, (top) => drawn(top).marks)]
  })
  return pours.length > 0 ? [discharge, ...work] : work
}

const labelsOf = (done: readonly Done[], axis: Axis, speech: Speech): Label[] =>
  done.flatMap((one) => {
    const x = axis.x(one.at)
    if (x === undefined) return []
    const place = speech.where(one.parts) || one.where || ''
    const text = [one.text, place].filter(Boolean).join(', ')
    const whole = [speech.time(one.at), text].filter(Boolean).join(' ')
    return [{ x, text: one.late === 'yes' ? speech.say('recDrawnLate', { text: whole }) : whole }]
  })

/** A load's number stands after its bar, where there is room for it before the next. */
const pourNumbers = (
  pours: readonly { readonly from: number; readonly to: number; readonly n: number }[],
  y: number,
): Mark[] =>
  pours.flatMap(({ to, n }) => {
    const next = pours
      .filter(({ from }) => from >= to)
      .reduce((least, { from }) => Math.min(least, from), 1900)
    return next - to < 40 ? [] : words([to + 8, y + 6], String(n), { room: next - to - 12, size: 68 })
  })
