import type { JobOddityKey } from '../../job/figures.ts'
import type { RecordKey } from '../../words/record-words.ts'
import type { RecordModel } from '../model.ts'
import { isScoped, type Withheld } from '../request.ts'
import { type Block, section } from './blocks.ts'
import type { Speech } from './speech.ts'

const ODD: Readonly<Record<JobOddityKey, RecordKey>> = {
  'order-said-twice': 'recOddOrder',
  'part-planned-twice': 'recOddPart',
  'several-answers': 'recOddJobSeveral',
}

/** Yards formed, ordered, ticketed, placed and left, each as a sum, and which loads a sum does not hold. */
export const yardsBlocks = (model: RecordModel, speech: Speech): Block[] =>
  holdsAllYards(model)
    ? yardsOf(model, speech)
    : section(speech.say('recYardsHead'), [speech.say('recYardsPart')])

/** Kinds that a sum over the job rests on. */
const SUMMED: readonly Withheld[] = [
  'ticket.recorded',
  'concrete.ordered',
  'balance.ordered',
  'placement.planned',
  'concrete.left',
  'load.placed',
  'load.rejected',
]

/** Sums over a part of the loads would pass for the job's: they are not made. */
const holdsAllYards = ({ thread, request }: RecordModel): boolean =>
  thread.every(({ is }) => is !== 'withheld') ||
  (!isScoped(request) &&
    request.withhold.length > 0 &&
    !request.withhold.some((kind) => SUMMED.includes(kind)))

const yardsOf = ({ job }: RecordModel, speech: Speech): Block[] => {
  const yd = (text: string) => speech.quantity({ text, unit: 'yd3' })
  const yards = (sum: RecordModel['job']['difference']) =>
    sum.is === 'given' ? yd(sum.yards) : speech.say('recNotRecorded')
  // A sum over no load at all, of several, is not nought: it isn't known.
  const isKnown = (sum: RecordModel['job']['placed']) =>
    sum.loadsWithout === 0 || sum.loadsWithout < job.loads.length
  const known = (sum: RecordModel['job']['placed']) =>
    isKnown(sum) ? yd(sum.yards) : speech.say('recNotRecorded')
  const { ticketed, ordered, difference, formed, partsWithout, placed, leftOver, overFormed, oddities } = job
  return section(speech.say('recYardsHead'), [
    speech.say('recYardsLine', {
      ordered: speech.marked(yards(ordered.sum), ordered.orders),
      ticketed: known(ticketed),
      difference: isKnown(ticketed) ? yards(difference) : speech.say('recNotRecorded'),
    }),
    ...(ticketed.loadsWithout > 0 ? [speech.say('recYardsWithout', { n: ticketed.loadsWithout })] : []),
    ...(ticketed.sentBack === '0' ? [] : [speech.say('recSentBack', { yards: yd(ticketed.sentBack) })]),
    speech.say('recPlacedLine', {
      formed: yards(formed),
      placed: known(placed),
      left: known(leftOver),
    }),
    ...(partsWithout > 0 ? [speech.say('recFormedWithout', { n: partsWithout })] : []),
    ...(placed.loadsWithout > 0 ? [speech.say('recPlacedWithout', { n: placed.loadsWithout })] : []),
    ...(leftOver.loadsWithout > 0 ? [speech.say('recLeftWithout', { n: leftOver.loadsWithout })] : []),
    ...(overFormed.is === 'given' ? [overText(overFormed.percent, speech)] : []),
    ...oddities.map((odd) => speech.say(ODD[odd])),
  ])
}

const overText = (percent: string, speech: Speech): string =>
  percent.startsWith('-')
    ? speech.say('recUnderFormed', { percent: percent.slice(1) })
    : speech.say('recOverFormed', { percent })
