import type { RecordModel } from '../model.ts'
import { printable } from '../printable.ts'
import { type Block, linesOf, printableBlock } from './blocks.ts'
import { loadBlocks } from './loads.ts'
import { changeBlocks, delayBlocks, photoBlocks, remarkBlocks, yardsBlocks } from './notes.ts'
import { clockBlocks, peopleBlocks } from './people.ts'
import { type Speech, speechOf } from './speech.ts'

/** The page that a stranger reads: its blocks in order, and the line at the foot of each sheet. */
export type Page = {
  readonly title: string
  readonly blocks: readonly Block[]
  /** `{page}` and `{pages}` are left for the drawing to fill in. */
  readonly footer: string
}

/** A pure function of the model: what `record.pdf` shows and nothing else. */
export const pageOf = (model: RecordModel): Page => {
  const speech = speechOf(model)
  const title = printable(speech.say('recTitle', { job: jobName(model, speech) }))
  const blocks: Block[] = [
    { is: 'title', text: title },
    ...opening(model, speech),
    ...loadBlocks(model, speech),
    ...yardsBlocks(model, speech),
    ...photoBlocks(model, speech),
    ...remarkBlocks(model, speech),
    ...changeBlocks(model, speech),
    ...delayBlocks(model, speech),
    ...clockBlocks(model, speech),
    ...peopleBlocks(model, speech),
    ...closing(model, speech),
  ]
  return {
    title,
    footer: printable(
      speech.say('recFooter', {
        job: [...jobName(model, speech)].slice(0, 60).join(''),
        size: model.checkpoint.size,
        made: model.made,
      }),
    ),
    blocks: blocks.map(printableBlock),
  }
}

/** Every text run of the page but the feet, in order. */
export const pageLines = (page: Page): string[] => linesOf(page.blocks)

export const footerOf = (page: Page, number: number, of: number): string =>
  page.footer.replaceAll('{page}', String(number)).replaceAll('{pages}', String(of))

const jobName = ({ job }: RecordModel, speech: Speech): string =>
  job.name.map((name) => name.text).join(speech.say('recOr')) || speech.say('recNoName')

const opening = (model: RecordModel, speech: Speech): Block[] => {
  const { job, thread, checkpoint, company } = model
  const named = company.is === 'given' ? company.name : speech.say('recNotRecorded')
  const zone = job.zone.map((said) => said.text).join(speech.say('recOr')) || speech.say('recNotRecorded')
  const of = (is: string) => thread.filter((slot) => slot.is === is).length
  return [
    {
      is: 'paragraph',
      text: speech.say('recWhat', { company: named, zone, offset: speech.offset, day: speech.day }),
    },
    {
      is: 'pairs',
      rows: [
        [speech.say('recJob'), `${jobName(model, speech)} (${job.job})`],
        [speech.say('recCompany'), `${named} (${model.origin})`],
        [speech.say('recAsOf'), speech.say('recAsOfIs', { made: model.made, size: checkpoint.size })],
        [speech.say('recRoot'), checkpoint.root],
        [
          speech.say('recEntries'),
          speech.say('recEntriesAre', {
            count: thread.length,
            withheld: of('withheld'),
            unread: of('unread'),
          }),
        ],
        [speech.say('recMade'), speech.say('recMadeIs', { release: model.release })],
      ],
    },
  ]
}

const closing = (model: RecordModel, speech: Speech): Block[] => [
  { is: 'heading', text: speech.say('recNotShown') },
  {
    is: 'list',
    items: (['recNotShown1', 'recNotShown2', 'recNotShown3', 'recNotShown4', 'recNotShown5'] as const).map(
      (key) => speech.say(key),
    ),
  },
  { is: 'heading', text: speech.say('recHow') },
  {
    is: 'list',
    items: [speech.say('recHow1'), speech.say('recHow2', { key: model.logKey }), speech.say('recHow3')],
  },
]
