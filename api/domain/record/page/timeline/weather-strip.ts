import { inUnit, type Quantity, type Unit } from '../../../units.ts'
import type { RecordModel } from '../../model.ts'
import { dot, freeRow, line, type Mark, wideness, words } from '../drawing.ts'
import type { Speech } from '../speech.ts'
import type { Axis } from './axis.ts'

type Reading = { readonly x: number; readonly value: number; readonly text: string }

/** Air, humidity and wind, each on a line of its own with its number at each point; the line's scale is that row's own. */
export const weatherStrip = (
  { job }: RecordModel,
  axis: Axis,
  top: number,
  speech: Speech,
): { readonly marks: Mark[]; readonly bottom: number } => {
  const { weather } = job.said
  const rows = [
    ['air', speech.say('recAirTemperature'), 'degF'],
    ['humidity', speech.field('humidity'), 'pct'],
    ['wind', speech.field('wind'), 'mph'],
  ] as const
  const marks: Mark[] = []
  let y = top
  for (const [member, label, unit] of rows) {
    const readings = weather.flatMap((one): Reading[] => {
      const x = axis.x(one.at)
      const quantity = one.body[member]
      const value = quantity && numberIn(quantity, unit)
      if (x === undefined || !quantity || value === undefined) return []
      const late = one.late === 'yes' ? speech.say('recDrawnMark') : ''
      // One unit is said once, at the row's head; any other at its number.
      return [{ x, value, text: (quantity.unit === unit ? quantity.text : speech.quantity(quantity)) + late }]
    })
    if (readings.length === 0) continue
    const head = `${label}, ${speech.words.units[unit]}`
    const row = rowMarks(
      readings.sort((a, b) => a.x - b.x),
      y,
    )
    marks.push(...words([0, y + 14], head, { room: axis.left - 10 }), ...row.marks)
    y = row.bottom
  }
  return { marks, bottom: y }
}

const CURVE = 36
const LINE = 28
const MOST_ROWS = 5

const rowMarks = (readings: readonly Reading[], top: number): { marks: Mark[]; bottom: number } => {
  const rows: [number, number][][] = []
  const numbers = readings.map(({ x, text }) => {
    const half = wideness(text, 68) / 2 + 4
    return { x, text, room: half * 2 + 30, row: freeRow(rows, x - half, x + half) }
  })
  // Numbers that would not be read are left to the list of the weather.
  const isCrowd = rows.length > MOST_ROWS
  const base = top + (isCrowd ? 0 : rows.length * LINE) + 6
  const values = readings.map(({ value }) => value)
  const least = Math.min(...values)
  const span = Math.max(...values) - least || 1
  const points = readings.map(({ x, value }) => [x, base + CURVE * (1 - (value - least) / span)] as const)
  return {
    marks: [
      ...points.slice(1).map((point, i) => line(points[i]!, point, 15)),
      ...points.map((point) => dot(point, 5)),
      ...(isCrowd ? [] : numbers).flatMap(({ x, text, room, row }) =>
        words([x, top + row * LINE], text, { align: 'middle', room, size: 68 }),
      ),
    ],
    bottom: base + CURVE + 12,
  }
}

const numberIn = (quantity: Quantity, unit: Unit): number | undefined => {
  const read = inUnit(quantity, unit)
  return read.ok ? Number(read.value.n) / Number(read.value.d) : undefined
}
