import { readLocalTime } from '../../../time.ts'
import { line, type Mark, words } from '../drawing.ts'

/** Time from left to right. Places are tenths of a millimetre, or undefined for what lies outside or is no time. */
export type Axis = {
  readonly from: number
  readonly to: number
  readonly left: number
  readonly right: number
  readonly x: (at: string | number) => number | undefined
  readonly ticks: readonly { readonly x: number; readonly label: string }[]
}

const MINUTE = 60_000
/** Minutes from tick to tick, those that clocks have. */
const STEPS = [5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880]
/** Tenths of a millimetre that a tick and its label take. */
const TICK_ROOM = 110

/** Its ticks bear the clock of one offset from UTC (`-05:00`), in ms from and to. */
export const axisOf = (
  span: { readonly from: number; readonly to: number },
  room: { readonly left: number; readonly right: number },
  offset: string,
): Axis => {
  const shift = offsetMs(offset)
  const first = Math.floor((span.from + shift) / MINUTE)
  const last = Math.max(first + 30, Math.ceil((span.to + shift) / MINUTE))
  const wide = room.right - room.left
  const step =
    STEPS.find((each) => (each * wide) / (last - first) >= TICK_ROOM) ?? Math.ceil((last - first) / 10)
  const from = Math.floor(first / step) * step
  const to = Math.ceil(last / step) * step
  const place = (minute: number) => room.left + (wide * (minute - from)) / (to - from)
  const x = (at: string | number): number | undefined => {
    const ms = typeof at === 'number' ? at : readLocalTime(at)
    if (ms === undefined) return undefined
    const minute = (ms + shift) / MINUTE
    return minute < from || minute > to ? undefined : place(minute)
  }
  const ticks = []
  for (let minute = from; minute <= to; minute += step) ticks.push({ x: place(minute), label: clock(minute) })
  return { from: from * MINUTE - shift, to: to * MINUTE - shift, ...room, x, ticks }
}

export const offsetMs = (offset: string): number => {
  const [hours = '0', minutes = '0'] = offset.slice(1).split(':')
  return (offset.startsWith('-') ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) * MINUTE
}

const clock = (minute: number): string => {
  const of = ((minute % 1440) + 1440) % 1440
  return `${String(Math.floor(of / 60)).padStart(2, '0')}:${String(of % 60).padStart(2, '0')}`
}

/** The ticks' lines from top to bottom, their clocks above them. */
export const axisMarks = (axis: Axis, top: number, bottom: number): Mark[] =>
  axis.ticks.flatMap(({ x, label }) => [
    line([x, top + 30], [x, bottom], 8, 'grid'),
    ...words([x, top], label, { align: 'middle', room: TICK_ROOM, size: 70 }),
  ])
