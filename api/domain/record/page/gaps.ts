import type { MissingKey } from '../../job/figures.ts'
import type { GapCode, GapIs, JobGap } from '../../job/missing.ts'
import type { RecordKey } from '../../words/record-words.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import { silentRows } from './loads.ts'
import { capital, type Speech } from './speech.ts'

const GAPS: Readonly<Record<GapCode, RecordKey>> = {
  base: 'recGapBase',
  depth: 'recGapDepth',
  weather: 'recGapWeather',
  'surface-temperature': 'recGapSurface',
  'bleed-water': 'recGapBleed',
  joints: 'recGapJoints',
  cure: 'recGapCure',
  nights: 'recGapNights',
  slump: 'recGapSlump',
  air: 'recGapAir',
  'concrete-temperature': 'recGapTemperature',
  cylinders: 'recGapCylinders',
  'slump-after-water': 'recGapSlumpAfter',
  'air-after-water': 'recGapAirAfter',
  'in-drum': 'recGapDrum',
  'where-placed': 'recGapWhere',
  'left-over': 'recGapLeftOver',
  waiver: 'recGapWaiver',
  signature: 'recGapSignature',
  'curb-line': 'recGapCurb',
}

const IS: Readonly<Record<GapIs, RecordKey>> = {
  'not-recorded': 'recNotRecorded',
  'not-taken': 'recNotTaken',
  'by-eye': 'recOnlyByEye',
  'left-blank': 'recLeftBlank',
}

const MISSING: Readonly<Record<MissingKey, RecordKey>> = {
  ticket: 'recMissingTicket',
  batched: 'recMissingBatched',
  limit: 'recMissingLimit',
  yards: 'recMissingYards',
  arrived: 'recMissingArrived',
  started: 'recMissingStarted',
  ended: 'recMissingEnded',
  left: 'recMissingLeft',
  water: 'recMissingWater',
  slump: 'recMissingSlump',
}
/** What the ticket itself leaves out was looked for and is not there; the rest nobody logged. */
const ON_TICKET: readonly MissingKey[] = ['batched', 'limit', 'yards']
/** The gaps tell of it already. */
const ALSO_A_GAP: readonly MissingKey[] = ['slump']

/** All that a reader might look for and won't find, with the load, part or night that it is of. */
export const gapBlocks = (model: RecordModel, speech: Speech): Block[] =>
  section(speech.say('recGapsHead'), orElse(gapLines(model, speech), speech.say('recNoGaps')))

export const gapLines = (model: RecordModel, speech: Speech): string[] => {
  const silent = silentRows(model, speech)
  return [
    ...missingTexts(model, speech),
    ...gapTexts(model.job.gaps, speech),
    ...(silent.length > 0 ? [speech.say('recSilent', { what: silent.join('; ') })] : []),
  ]
}

/** One line for one thing, with every load and part that it is missing of. */
const gapTexts = (gaps: readonly JobGap[], speech: Speech): string[] => {
  const lines = new Map<string, string[]>()
  for (const { gap, is, load, part, after } of gaps) {
    const what =
      gap === 'nights' && after !== undefined
        ? speech.say('recGapNightsAfter', { night: after })
        : speech.say('recGapIs', { what: speech.say(GAPS[gap]), is: speech.say(IS[is]) })
    const places = lines.get(what) ?? []
    if (load !== undefined) places.push(speech.place(load))
    if (part !== undefined) places.push(speech.where([part]))
    lines.set(what, places)
  }
  return [...lines].map(([what, places]) =>
    capital(places.length === 0 ? what : speech.say('recGapOf', { what, places: places.join(', ') })),
  )
}

const missingTexts = ({ job }: RecordModel, speech: Speech): string[] => {
  const lines = new Map<MissingKey, string[]>()
  for (const { load, missing } of job.loads)
    for (const key of missing.filter((one) => !ALSO_A_GAP.includes(one)))
      lines.set(key, [...(lines.get(key) ?? []), speech.place(load)])
  return [...lines].map(([key, places]) => {
    const is = speech.say(ON_TICKET.includes(key) ? 'recNotStated' : 'recNotRecorded')
    const what = speech.say('recGapIs', { what: speech.say(MISSING[key]), is })
    return capital(speech.say('recGapOf', { what, places: places.join(', ') }))
  })
}
