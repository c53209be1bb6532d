import { inUnit, type Quantity } from '../../units.ts'
import type { JobSayings } from '../job-model.ts'
import type { RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import { box, type Drawing, type Fill, line, type Mark, SHEET_WIDE, wideness, words } from './drawing.ts'
import type { Speech } from './speech.ts'

type Part = JobSayings['placements'][number]['body']['parts'][number]
/** A load's stretch along a part, in feet; the whole part where nobody said from or to. */
type Stretch = {
  readonly ordinal: number
  readonly from: number
  readonly to: number
  readonly isWhole: boolean
  readonly text: string
}

const LEFT = 360
const WIDEST = SHEET_WIDE - LEFT - 20
const HIGHEST = 520
const TALLEST = 1700
const LEAST = 46
/** So that two loads that meet never look alike in a grey copy. */
const FILLS: readonly Fill[] = ['light', 'hatched', 'mid', 'crossed']

/**
 * The parts as they were planned, all to one scale, and where along them each load is said to have gone. A part that
 * several loads went into without a place of their own is left white: where in it each lies nobody recorded.
 */
export const sketchBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const parts = model.job.said.placements.flatMap(({ body }) => body.parts)
  const sized = parts.flatMap((part) => {
    const [long, wide] = [feet(part.length), feet(part.width)]
    return long > 0 && wide > 0 ? [{ part, long, wide }] : []
  })
  const notes = parts.flatMap((part) => noteOf(part, model, speech))
  if (sized.length === 0) return []
  const scale = Math.min(
    WIDEST / Math.max(...sized.map(({ long }) => long)),
    HIGHEST / Math.max(...sized.map(({ wide }) => wide)),
  )
  const drawings: Drawing[] = []
  let marks: Mark[] = []
  let y = 10
  const finish = () => {
    if (marks.length > 0) drawings.push({ is: 'drawing', width: SHEET_WIDE, height: y, marks })
    marks = []
    y = 10
  }
  for (const { part, long, wide } of sized) {
    const high = Math.max(LEAST, wide * scale)
    if (y + high + 60 > TALLEST) finish()
    marks.push(...partMarks(part, { long, high, scale, top: y }, model, speech))
    y += high + 60
  }
  finish()
  return [
    { is: 'heading', text: speech.say('recSketchHead') },
    { is: 'paragraph', text: speech.say('recSketchKey') },
    ...drawings,
    ...(notes.length === 0 ? [] : [{ is: 'list', items: notes } as const]),
  ]
}

type Place = { readonly long: number; readonly high: number; readonly scale: number; readonly top: number }

const partMarks = (
  part: Part,
  { long, high, scale, top }: Place,
  model: RecordModel,
  speech: Speech,
): Mark[] => {
  const stretches = stretchesOf(part, long, model, speech)
  const x = (at: number) => LEFT + Math.min(long, Math.max(0, at)) * scale
  const isShared = (one: Stretch) =>
    stretches.some((other) => other !== one && other.from < one.to && one.from < other.to)
  const shared = stretches.filter(isShared)
  const alone = stretches.filter((one) => !isShared(one))
  const ends = [...new Set([0, long, ...alone.flatMap(({ from, to }) => [from, to])])].sort((a, b) => a - b)
  const untold =
    shared.length > 0
      ? speech.say('recSketchShared', { loads: [...new Set(shared.map(({ text }) => text))].join(', ') })
      : stretches.length === 0
        ? speech.say('recSketchNone')
        : ''
  const room = LEFT - 30
  const sides = `${speech.quantity(part.length)} × ${speech.quantity(part.width)}`
  return [
    ...words([0, top], part.name, { room, size: 82, bold: true }),
    ...words([0, top + 34], sides, { room }),
    ...alone.map(({ from, to, ordinal }) =>
      box([x(from), top], [x(to) - x(from), high], FILLS[(ordinal - 1) % FILLS.length]!, 0),
    ),
    ...jointsOf(part, long, model).map((at) => line([x(at), top], [x(at), top + high], 20, 'dashed')),
    ...alone.flatMap(({ from, to }) => [from, to]).map((at) => line([x(at), top], [x(at), top + high], 30)),
    box([LEFT, top], [long * scale, high], 'none', 45),
    ...alone.flatMap(({ from, to, text }) =>
      words([(x(from) + x(to)) / 2, top + high / 2 - 14], text, {
        align: 'middle',
        room: x(to) - x(from) - 16,
        size: 76,
        bold: true,
      }),
    ),
    ...besides(untold, { long, high, scale, top }),
    ...ends.flatMap((at, i) =>
      words([x(at), top + high + 6], showFeet(at), {
        align: i === 0 ? 'left' : 'middle',
        room: 120,
        size: 64,
      }),
    ),
  ]
}

/** What can't be drawn is written in the part, or beside it where it is too short for the words. */
const besides = (text: string, { long, high, scale, top }: Place): Mark[] => {
  const end = LEFT + long * scale
  const at = wideness(text, 70) + 24 < long * scale ? LEFT + 12 : Math.min(end + 14, SHEET_WIDE - 600)
  return words([at, top + high / 2 - 14], text, { room: SHEET_WIDE - at - 10, size: 70 })
}

const stretchesOf = (part: Part, long: number, { job }: RecordModel, speech: Speech): Stretch[] =>
  job.loads.flatMap((load) =>
    load.placed.flatMap(({ body }) =>
      body.places
        .filter((place) => place.part === part.part)
        .map((place): Stretch => {
          const name = speech.say('recLoad', { n: load.ordinal })
          return {
            ordinal: load.ordinal,
            from: place.from ? feet(place.from) : 0,
            to: place.to ? feet(place.to) : long,
            isWhole: !place.from && !place.to,
            text: place.yards ? `${name}, ${speech.quantity(place.yards)}` : name,
          }
        })
        .filter(({ from, to }) => to > from),
    ),
  )

/** Saw cuts as far apart as somebody said, from the end that lengths are counted from; no more than can be told apart. */
const MOST_JOINTS = 60

const jointsOf = (part: Part, long: number, { job }: RecordModel): number[] => {
  const spacings = job.said.saws.flatMap(({ body }) =>
    body.spacing && body.parts?.includes(part.part) ? [feet(body.spacing)] : [],
  )
  const [spacing, ...others] = [...new Set(spacings)]
  if (spacing === undefined || others.length > 0 || spacing <= 0 || long / spacing > MOST_JOINTS) return []
  const joints = []
  for (let at = spacing; at < long - 0.01; at += spacing) joints.push(at)
  return joints
}

/** What was measured and photographed of a part, and where. */
const noteOf = (part: Part, { job }: RecordModel, speech: Speech): string[] => {
  const depths = job.said.depths
    .filter(({ body }) => body.part === part.part)
    .map(({ body }) => [speech.quantity(body.depth), body.where].filter(Boolean).join(' '))
  const photos = [...job.photos, ...job.loads.flatMap((load) => load.photos)]
    .filter((photo) => photo.part === part.part)
    .map(({ shows, where, at }) =>
      [speech.words.codes[shows], where, speech.time(at)].filter(Boolean).join(' '),
    )
  if (depths.length === 0 && photos.length === 0) return []
  const none = speech.say('recNotRecorded')
  return [
    speech.say('recSketchNote', {
      part: part.name,
      depths: depths.join('; ') || none,
      photos: photos.join('; ') || none,
    }),
  ]
}

const feet = (quantity: Quantity): number => {
  const read = inUnit(quantity, 'ft')
  return read.ok ? Number(read.value.n) / Number(read.value.d) : 0
}

const showFeet = (at: number): string => `${Math.round(at * 100) / 100} ft`
