import type { RecordModel } from '../model.ts'
import type { SaidModel } from '../said.ts'
import type { Block } from './blocks.ts'
import { answered } from './cells.ts'
import { capital, type Speech } from './speech.ts'

type Pair = readonly [string, string]

/** Whose slab it is, what was ordered in which words, and what was said to the plant. */
export const jobBlocks = ({ job }: RecordModel, speech: Speech): Block[] => {
  const { said, ordered } = job
  const kind = (name: keyof typeof speech.words.kinds) => capital(speech.words.kinds[name])
  const one = <T extends SaidModel>(label: string, all: readonly T[], text: (answer: T) => string): Pair => [
    label,
    answered(all, speech, text).join(' | ') || speech.say('recNotRecorded'),
  ]
  const each = <T extends SaidModel>(label: string, all: readonly T[], text: (answer: T) => string): Pair => [
    label,
    all.map((answer) => speech.saidAt(text(answer), answer)).join(' | ') || speech.say('recNotRecorded'),
  ]
  return [
    { is: 'heading', text: speech.say('recJobHead') },
    {
      is: 'pairs',
      rows: [
        one(kind('customer.named'), said.customer, ({ body: { name, phone } }) =>
          [name, ...(phone === undefined ? [] : [phone])].join(', '),
        ),
        one(kind('site.addressed'), said.address, ({ body }) => body.address),
        one(kind('mix.ordered'), said.mix, ({ body }) => speech.body(body)),
        each(kind('concrete.ordered'), ordered.orders, ({ yards }) => speech.quantity(yards)),
        each(kind('balance.ordered'), said.balance, ({ body }) => speech.body(body)),
        each(kind('concrete.held'), said.held, ({ body }) => speech.body(body)),
        each(kind('delivery.promised'), said.promised, ({ body }) => promiseText(body, speech)),
        each(kind('dispatch.called'), said.calls, ({ body }) => callText(body, speech)),
      ],
    },
  ]
}

type Said = RecordModel['job']['said']

const promiseText = ({ at, spacing }: Said['promised'][number]['body'], speech: Speech): string =>
  [
    speech.say('recPromisedAt', { time: speech.time(at) }),
    ...(spacing === undefined ? [] : [speech.body({ spacing })]),
  ].join(', ')

const callText = ({ from, said }: Said['calls'][number]['body'], speech: Speech): string =>
  `${speech.say(from === 'us' ? 'recWeCalled' : 'recPlantCalled')}: “${said.text}”`
