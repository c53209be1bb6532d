import { readLocalTime } from '../../../time.ts'
import type { RecordModel } from '../../model.ts'
import type { Block } from '../blocks.ts'
import { type Drawing, line, type Mark, SHEET_WIDE } from '../drawing.ts'
import type { Speech } from '../speech.ts'
import { type Axis, axisMarks, axisOf } from './axis.ts'
import { truckSpan, workSpan } from './span.ts'
import { truckDrawings } from './trucks.ts'
import { weatherStrip } from './weather-strip.ts'
import { type Lane, workLanes, workOutside, workTimes } from './work.ts'

/** The pour on one sheet: trucks, water, readings and limits against time; beneath, the weather and the work of the day. */
export const timelineBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const trucks = truckSpan(model)
  const blocks: Block[] = [
    { is: 'sheet' },
    { is: 'heading', text: speech.say('recDrawnHead') },
    { is: 'paragraph', text: speech.say('recDrawnKey', { day: speech.day, offset: speech.offset }) },
    ...(trucks
      ? truckDrawings(model, trucks, speech)
      : [{ is: 'paragraph', text: speech.say('recDrawnNoTrucks') } as const]),
  ]
  return [...blocks, ...dayBlocks(model, speech), { is: 'sheet' }]
}

const dayBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const weather = model.job.said.weather
  const times = [...workTimes(model, speech), ...weather.map(({ at }) => at)]
  const span = workSpan(
    model,
    times.flatMap((at) => readLocalTime(at) ?? []),
  )
  if (times.length === 0 || !span) return []
  const axis = axisOf(span, { left: 330, right: SHEET_WIDE }, speech.offset)
  const strip = weatherStrip(model, axis, TOP, speech)
  const outside =
    workOutside(model, axis, speech) + weather.filter(({ at }) => axis.x(at) === undefined).length
  return [
    { is: 'subheading', text: speech.say('recDrawnDay') },
    ...drawingsOf(strip, workLanes(model, axis, speech), axis),
    ...(outside === 0
      ? []
      : [{ is: 'paragraph', text: speech.say('recDrawnOutside', { n: outside }) } as const]),
  ]
}

const TOP = 44
/** A drawing is not split over two sheets: lanes that don't fit into this one get another. */
const TALLEST = 1500

const drawingsOf = (
  strip: { readonly marks: readonly Mark[]; readonly bottom: number },
  lanes: readonly Lane[],
  axis: Axis,
): Drawing[] => {
  const drawings: Drawing[] = []
  let marks: Mark[] = [...strip.marks]
  let y = strip.bottom + 10
  const finish = () => {
    const height = y + 6
    const foot = line([0, y], [axis.right, y], 6)
    drawings.push({
      is: 'drawing',
      width: SHEET_WIDE,
      height,
      marks: [...axisMarks(axis, 0, height), ...marks, foot],
    })
    marks = []
    y = TOP
  }
  for (const lane of lanes) {
    if (y + lane.height > TALLEST) finish()
    marks.push(...lane.marks(y))
    y += lane.height
  }
  finish()
  return drawings
}
