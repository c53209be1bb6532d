import { readLocalTime } from '../../../time.ts'
import type { LoadModel } from '../../load-model.ts'
import type { RecordModel } from '../../model.ts'
import type { SaidModel } from '../../said.ts'
import { limitVerdicts, readingText, slumpText, spanText, waterText } from '../answers.ts'
import { box, type Drawing, dot, line, type Mark, SHEET_WIDE, shape, words } from '../drawing.ts'
import type { Speech } from '../speech.ts'
import { type Axis, axisMarks, axisOf } from './axis.ts'
import { type Label, labelMarks, ROW } from './labels.ts'
import { type TimeSpan, timesOfLoad } from './span.ts'

const LEFT = 270
const BAR = 36
/** A drawing is not split over two sheets: loads that don't fit on this one get one of their own. */
const TALLEST = 1500
/** Gaps drawn before one load; all of them are listed. */
const MOST_GAPS = 5

/** Each load's way from batching to leaving, its limits, water and readings, one beneath another in time. */
export const truckDrawings = (model: RecordModel, span: TimeSpan, speech: Speech): Drawing[] => {
  const limits = model.job.loads.flatMap((load) => limitsOf(load).map(({ at }) => at))
  const near = limits.filter((at) => at >= span.from && at <= span.to + 3_600_000)
  const axis = axisOf(
    { from: span.from, to: Math.max(span.to, ...near) },
    { left: LEFT, right: SHEET_WIDE },
    speech.offset,
  )
  const drawings: Drawing[] = []
  let marks: Mark[] = []
  let y = 40
  const finish = () => {
    if (marks.length > 0)
      drawings.push({
        is: 'drawing',
        width: SHEET_WIDE,
        height: y,
        marks: [...axisMarks(axis, 0, y), ...marks],
      })
    marks = []
    y = 40
  }
  for (const load of model.job.loads) {
    const before = gapMarks(model, load, axis, y, speech)
    const lane = laneOf(load, axis, y + before.height, speech)
    if (y > 40 && lane.bottom > TALLEST) {
      finish()
      const again = laneOf(load, axis, y, speech)
      marks.push(...again.marks)
      y = again.bottom
      continue
    }
    marks.push(...before.marks, ...lane.marks)
    y = lane.bottom
  }
  finish()
  return drawings
}

const laneOf = (
  load: LoadModel,
  axis: Axis,
  top: number,
  speech: Speech,
): { marks: Mark[]; bottom: number } => {
  const above = [...limitLabels(load, axis, speech), ...waterLabels(load, axis, speech)]
  const crowd = (n: number) => speech.say('recDrawnCrowd', { n })
  const up = { way: 'up', left: LEFT, right: SHEET_WIDE, crowd } as const
  const rows = labelMarks(above, { edge: 0, ...up }).rows
  const bar = top + 14 + rows * ROW + 8
  const below = labelMarks(readingLabels(load, axis, speech), {
    edge: bar + BAR,
    way: 'down',
    left: LEFT,
    right: SHEET_WIDE,
    crowd,
  })
  const texts = sentencesOf(load, speech)
  const first = bar + BAR + below.rows * ROW + 20
  const numbers = [
    ...new Set(load.tickets.flatMap(({ number }) => (number.is === 'given' ? [number.text] : []))),
  ]
  const yards = load.yards.map((text) => speech.quantity({ text, unit: 'yd3' })).join(speech.say('recOr'))
  const bottom = Math.max(first + texts.length * 31, bar + 90) + 8
  return {
    marks: [
      line([0, top + 2], [SHEET_WIDE, top + 2], 8),
      ...words([0, top + 12], speech.say('recLoad', { n: load.ordinal }), {
        room: LEFT - 20,
        size: 90,
        bold: true,
      }),
      ...words([0, top + 48], ticketText(numbers, speech), { room: LEFT - 20 }),
      ...words([0, top + 78], yards, { room: LEFT - 20 }),
      ...wayMarks(load, axis, bar),
      ...labelMarks(above, { edge: bar, ...up }).marks,
      ...below.marks,
      ...texts.flatMap((text, i) => words([LEFT, first + i * 31], text, { room: SHEET_WIDE - LEFT })),
    ],
    bottom,
  }
}

const ticketText = (numbers: readonly string[], speech: Speech): string =>
  numbers.length === 0 ? '' : `${speech.say('recTicketNumber')} ${numbers.join(speech.say('recOr'))}`

/** Under way a line, at the forms an open bar, discharging a dark one, a pause crossed out of it. Several answers: each its own mark. */
const wayMarks = (load: LoadModel, axis: Axis, bar: number): Mark[] => {
  const inside = timesOfLoad(load).flatMap((at) => axis.x(at) ?? [])
  if (inside.length === 0) return []
  const batched = placesOf(
    load.tickets.flatMap(({ batchedAt }) => (batchedAt.is === 'given' ? [batchedAt.at] : [])),
    axis,
  )
  const at = (all: readonly SaidModel[]) =>
    placesOf(
      all.map((one) => one.at),
      axis,
    )
  const [arrived, started, ended, left] = [at(load.arrived), at(load.started), at(load.ended), at(load.left)]
  const middle = bar + BAR / 2
  const bars = (from: number | undefined, to: number | undefined, fill: 'white' | 'dark'): Mark[] =>
    from === undefined || to === undefined || to <= from ? [] : [box([from, bar], [to - from, BAR], fill, 20)]
  const first = (places: readonly number[]) => places[0]
  const last = (places: readonly number[]) => places.at(-1)
  const road = first(batched)
  const come = first(arrived) ?? first(started)
  return [
    ...(road !== undefined && come !== undefined && come > road
      ? [line([road, middle], [come, middle], 40, 'dashed')]
      : []),
    ...bars(first(arrived), first(started) ?? last(left), 'white'),
    ...bars(first(started), last(ended), 'dark'),
    ...bars(last(ended), last(left), 'white'),
    ...pausesOf(load, axis).map(([from, to]) =>
      box([from, bar], [Math.max(4, to - from), BAR], 'crossed', 20),
    ),
    ...batched.map((x) => dot([x, middle], 9)),
    ...[...arrived, ...started, ...ended, ...left].map((x) => line([x, bar - 6], [x, bar + BAR + 6], 25)),
  ]
}

const placesOf = (times: readonly string[], axis: Axis): number[] =>
  times.flatMap((at) => axis.x(at) ?? []).sort((a, b) => a - b)

/** Each pause up to the next time that discharge went on, or to its end. */
const pausesOf = (load: LoadModel, axis: Axis): [number, number][] => {
  const ends = placesOf(
    [...load.resumed, ...load.ended].map(({ at }) => at),
    axis,
  )
  return placesOf(
    load.paused.map(({ at }) => at),
    axis,
  ).flatMap((from): [number, number][] => {
    const to = ends.find((end) => end >= from)
    return to === undefined ? [] : [[from, to]]
  })
}

/** When each stated limit ran out: from each batching time on that ticket, or on any where the order states the limit. */
const limitsOf = (load: LoadModel): { at: number; minutes: number }[] => {
  const found = new Map<string, { at: number; minutes: number }>()
  for (const { limitMinutes } of load.limit.checks)
    for (const { batchedAt } of load.tickets) {
      const from = batchedAt.is === 'given' ? readLocalTime(batchedAt.at) : undefined
      if (from === undefined) continue
      const at = from + limitMinutes * 60_000
      found.set(`${at} ${limitMinutes}`, { at, minutes: limitMinutes })
    }
  return [...found.values()]
}

const limitLabels = (load: LoadModel, axis: Axis, speech: Speech): Label[] =>
  limitsOf(load).flatMap(({ at, minutes }) => {
    const x = axis.x(at)
    return x === undefined ? [] : [{ x, text: speech.say('recDrawnLimit', { minutes }), bold: true }]
  })

const late = (text: string, said: SaidModel, speech: Speech): string =>
  said.late === 'yes' ? speech.say('recDrawnLate', { text }) : text

const waterLabels = (load: LoadModel, axis: Axis, speech: Speech): Label[] =>
  load.water.answers.flatMap((one) => {
    const x = axis.x(one.at)
    if (x === undefined) return []
    const text = speech.say('recDrawnWater', { amount: waterText(one.amount, speech) })
    return [{ x, text: late(text, one, speech), bold: one.amount.is === 'given' }]
  })

const readingLabels = (load: LoadModel, axis: Axis, speech: Speech): Label[] => {
  const label = (said: SaidModel, text: string): Label[] => {
    const x = axis.x(said.at)
    return x === undefined ? [] : [{ x, text: late(text, said, speech) }]
  }
  const kind = speech.words.kinds
  const named = (what: string, value: string) => `${what} ${value}`
  return [
    ...load.slump.flatMap((one) => label(one, named(kind['slump.measured'], slumpText(one, speech)))),
    ...load.air.flatMap((one) => label(one, named(kind['air.measured'], readingText(one.body.air, speech)))),
    ...load.temperatures
      .filter(({ body }) => body.of === 'concrete')
      .flatMap((one) =>
        label(one, named(speech.say('recConcreteTemperature'), readingText(one.body.temperature, speech))),
      ),
    ...load.cylinders.flatMap((one) =>
      label(
        one,
        named(
          kind['cylinders.made'],
          one.body.number.is === 'given'
            ? one.body.number.text
            : speech.say(one.body.number.is === 'none' ? 'recNoneMade' : 'recNotTaken'),
        ),
      ),
    ),
  ]
}

/** The same in words: times, minutes against the limit, and the water. */
const sentencesOf = (load: LoadModel, speech: Speech): string[] => {
  const lacks = speech.say('recNotRecorded')
  const at = (all: readonly SaidModel[]) =>
    all.map((one) => late(speech.time(one.at), one, speech)).join(speech.say('recOr')) || lacks
  const batched = [
    ...new Set(
      load.tickets.map(({ batchedAt }) =>
        batchedAt.is === 'given' ? speech.time(batchedAt.at) : speech.say('recNotStated'),
      ),
    ),
  ]
  const span = (one: LoadModel['batchToEnd']) => spanText(one, speech).join('') || lacks
  const { sum } = load.water
  const water =
    sum.is === 'given'
      ? [
          speech.say('recWaterSum', { gallons: sum.gallons }),
          ...sum.also.map((is) => speech.say(is === 'none' ? 'recAlsoNone' : 'recAlsoNotSure')),
        ].join(', ')
      : speech.say(sum.is === 'none' ? 'recNone' : sum.is === 'not-sure' ? 'recNotSure' : 'recNotRecorded')
  return [
    speech.say('recDrawnTimes', {
      batched: batched.join(speech.say('recOr')) || lacks,
      arrived: at(load.arrived),
      started: at(load.started),
      ended: at(load.ended),
      left: at(load.left),
    }),
    speech.say('recDrawnMinutes', {
      start: span(load.batchToStart),
      end: span(load.batchToEnd),
      limit: limitVerdicts(load, speech).join('; ') || lacks,
      water,
    }),
  ]
}

/** How long an edge stood before this load, as a measured line between the two lanes. */
const gapMarks = (
  { job }: RecordModel,
  load: LoadModel,
  axis: Axis,
  top: number,
  speech: Speech,
): { marks: Mark[]; height: number } => {
  const gaps = job.edgeGaps.filter(({ to }) => to === load.load).slice(0, MOST_GAPS)
  const marks = gaps.flatMap((gap, i): Mark[] => {
    const before = job.loads.find((one) => one.load === gap.from)
    const from = placesOf(
      (before?.ended ?? []).map(({ at }) => at),
      axis,
    )[0]
    const to = placesOf(
      load.started.map(({ at }) => at),
      axis,
    )[0]
    if (from === undefined || to === undefined) return []
    const y = top + 20 + i * 34
    const text = speech.say(gap.minutes < 0 ? 'recDrawnOverlap' : 'recDrawnGap', {
      minutes: Math.abs(gap.minutes),
    })
    const [low, high] = from < to ? [from, to] : [to, from]
    return [
      line([low, y], [high, y], 12),
      shape(
        [
          [low, y],
          [low + 12, y - 6],
          [low + 12, y + 6],
        ],
        'dark',
        0,
      ),
      shape(
        [
          [high, y],
          [high - 12, y - 6],
          [high - 12, y + 6],
        ],
        'dark',
        0,
      ),
      ...(high + 400 < SHEET_WIDE
        ? words([high + 10, y - 12], text, { room: SHEET_WIDE - high - 10, size: 72, bold: true })
        : words([low - 10, y - 12], text, { align: 'right', room: low - LEFT, size: 72, bold: true })),
    ]
  })
  return { marks, height: marks.length === 0 ? 0 : 14 + gaps.length * 34 }
}
