import type { RecordModel } from '../model.ts'
import { type Block, section } from './blocks.ts'
import type { Speech } from './speech.ts'

/** One truck that two phones logged as two loads: which were joined, by whom, and how they would be parted. */
export const joinBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const { joins } = job.said
  if (joins.length === 0) return []
  return section(
    speech.say('recJoinsHead'),
    joins.map((join) =>
      speech.say('recJoined', {
        ids: join.body.loads.join(', '),
        load: speech.place(join.body.loads[0]),
        said: speech.byAt(join),
        n: speech.countOf(join.entry) ?? '?',
      }),
    ),
  )
}
