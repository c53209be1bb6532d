import type { Kind } from '../../entry/registry.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel } from '../said.ts'
import type { Block } from './blocks.ts'
import { inTime } from './in-time.ts'
import { capital, type Speech } from './speech.ts'

type Body = { readonly parts?: readonly string[]; readonly where?: string }
type Step = SaidModel & {
  readonly kind: Kind
  readonly body: Body
}

/** Finishing, curing, covers, saw cuts, rain, and what came after the finish: in time order, and where. */
export const finishBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const steps = inTime(stepsOf(job.said))
  const head = [speech.say('recWhen'), speech.field('what'), speech.field('where'), speech.say('recLoggedBy')]
  return [
    { is: 'heading', text: speech.say('recFinishHead') },
    steps.length === 0
      ? { is: 'paragraph', text: speech.say('recNoFinish') }
      : { is: 'grid', widths: [28, 50, 62, 38], rows: [head, ...steps.map((step) => stepRow(step, speech))] },
  ]
}

const stepsOf = (said: RecordModel['job']['said']): Step[] => {
  const of =
    (kind: Kind) =>
    (step: SaidModel & { readonly body: object }): Step => ({ ...step, kind, body: step.body as Body })
  return [
    ...said.finish.map(of('finish.done')),
    ...said.cures.map(of('cure.applied')),
    ...said.covers.map(of('cover.placed')),
    ...said.saws.map(of('joint.sawn')),
    ...said.rain.map(of('rain.fell')),
    ...said.served.map(of('slab.served')),
  ]
}

const stepRow = (step: Step, speech: Speech): string[] => {
  const { parts, where, ...body } = step.body
  const text = speech.body(body)
  // A step of finishing names itself.
  const what =
    step.kind === 'finish.done'
      ? capital(text)
      : [capital(speech.words.kinds[step.kind]), text].filter(Boolean).join(': ')
  return [
    speech.time(step.at),
    what,
    speech.where(parts, where) || speech.say('recNotRecorded'),
    speech.by(step),
  ]
}
