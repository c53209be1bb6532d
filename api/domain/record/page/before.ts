import type { RecordModel } from '../model.ts'
import { type Block, orElse } from './blocks.ts'
import type { Speech } from './speech.ts'

/** What was looked at and measured before the concrete came, by part: it can't be looked at afterwards. */
export const beforeBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const { checks, depths } = job.said
  const ids = [undefined, ...job.parts.map(({ part }) => part)]
  const known = new Set(ids)
  const partOf = (part: string | undefined) => (known.has(part) ? part : undefined)
  const lines = ids.flatMap((id) => {
    const place = id === undefined ? speech.say('recWholeJob') : speech.where([id])
    const found = checks
      .filter(({ body }) => partOf(body.part) === id)
      .map((check) => {
        const { part, ...body } = check.body
        return speech.saidAt(speech.body(body), check)
      })
    const measured = depths
      .filter(({ body }) => partOf(body.part) === id)
      .map((depth) => {
        const { where } = depth.body
        const value = speech.say('recDepthIs', { depth: speech.quantity(depth.body.depth) })
        return speech.saidAt(where === undefined ? value : `${value}, ${where}`, depth)
      })
    return [...found, ...measured].map((text) => speech.say('recPlaced', { place, text }))
  })
  return [
    { is: 'heading', text: speech.say('recBeforeHead') },
    { is: 'list', items: orElse(lines, speech.say('recNoChecks')) },
  ]
}
