import type { Taking } from '../../entry/taking.ts'
import type { RecordKey } from '../../words/record-words.ts'
import type { Speech } from './speech.ts'

const AGAINST_WATER: Readonly<Record<NonNullable<Taking['water']>, RecordKey>> = {
  before: 'recBeforeWater',
  after: 'recAfterWater',
  'none-added': 'recNoWaterAdded',
}

/** How a reading came about, as far as somebody said. */
export const takingText = (taking: Taking, speech: Speech): string => {
  const { sampledAt, point, water, taker, employer, resultAt, instrument, certificate } = taking
  return [
    ...(sampledAt === undefined ? [] : [speech.say('recSampledAt', { time: speech.time(sampledAt) })]),
    ...(point === undefined ? [] : [speech.words.codes[point]]),
    ...(water === undefined ? [] : [speech.say(AGAINST_WATER[water])]),
    ...(resultAt === undefined ? [] : [speech.say('recResultAt', { time: speech.time(resultAt) })]),
    ...(taker === undefined ? [] : [speech.body({ taker })]),
    ...(employer === undefined ? [] : [speech.body({ employer })]),
    ...(instrument === undefined ? [] : [speech.body({ instrument })]),
    ...(certificate === undefined ? [] : [speech.body({ certificate })]),
  ].join(', ')
}
