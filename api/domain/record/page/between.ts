import type { RecordModel } from '../model.ts'
import { type Block, orElse, section } from './blocks.ts'
import type { Speech } from './speech.ts'

/** How long an edge stood between loads: from one load's end of discharge to the next one's start. */
export const betweenBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  if (job.loads.length < 2) return []
  const lines = job.edgeGaps.map(({ from, to, minutes }) =>
    speech.say(minutes < 0 ? 'recOverlap' : 'recBetween', {
      from: speech.place(from),
      to: speech.place(to),
      minutes: Math.abs(minutes),
    }),
  )
  return section(speech.say('recBetweenHead'), orElse(lines, speech.say('recNoBetween')))
}
