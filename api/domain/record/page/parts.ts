import type { RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import type { Speech } from './speech.ts'

/** The planned parts with their sides as entered and what each takes, and the job's yards. */
export const partBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const yards = new Map(job.parts.map(({ part, yards: text }) => [part, text]))
  const plans = job.said.placements
  const rows = plans.flatMap((plan) =>
    plan.body.parts.map((part) => {
      const formed = yards.get(part.part)
      return [
        part.name,
        plan.body.name,
        `${speech.quantity(part.length)} × ${speech.quantity(part.width)} × ${speech.quantity(part.thickness)}`,
        formed === undefined ? speech.say('recNotRecorded') : speech.quantity({ text: formed, unit: 'yd3' }),
        speech.byAt(plan),
      ]
    }),
  )
  const head = [
    speech.field('part'),
    speech.field('placement'),
    speech.say('recSides'),
    speech.say('recFormed'),
    speech.say('recLoggedBy'),
  ]
  return [
    { is: 'heading', text: speech.say('recPartsHead') },
    rows.length === 0
      ? { is: 'paragraph', text: speech.say('recNoParts') }
      : { is: 'grid', widths: [26, 22, 34, 14, 34], rows: [head, ...rows] },
  ]
}
