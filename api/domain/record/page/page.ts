import { isDemoOrigin } from '../../log/device-log.ts'
import type { RecordModel } from '../model.ts'
import { printable } from '../printable.ts'
import { beforeBlocks } from './before.ts'
import { betweenBlocks } from './between.ts'
import { type Block, linesOf, printableBlock } from './blocks.ts'
import { changeBlocks } from './changes.ts'
import { delayBlocks } from './delays.ts'
import { finishBlocks } from './finishing.ts'
import { gapBlocks } from './gaps.ts'
import { instrumentBlocks } from './instruments.ts'
import { jobBlocks } from './job.ts'
import { joinBlocks } from './joins.ts'
import { limitBlocks } from './limits.ts'
import { loadBlocks } from './loads.ts'
import { photoBlocks, remarkBlocks } from './notes.ts'
import { closing, jobName, opening } from './opening.ts'
import { partBlocks } from './parts.ts'
import { clockBlocks, peopleBlocks } from './people.ts'
import { publishedBlocks } from './published.ts'
import { sketchBlocks } from './sketch.ts'
import { type Speech, speechOf } from './speech.ts'
import { timelineBlocks } from './timeline/timeline.ts'
import { weatherBlocks } from './weather.ts'
import { yardsBlocks } from './yards.ts'

/** The page that a stranger reads: its blocks in order, and the line at the foot of each sheet. */
export type Page = {
  readonly title: string
  readonly blocks: readonly Block[]
  /** `{page}` and `{pages}` are left for the drawing to fill in. */
  readonly footer: string
}

/** In the order of the work; then what was said about the log itself; last what is not in it. */
const SECTIONS: readonly ((model: RecordModel, speech: Speech) => Block[])[] = [
  opening,
  jobBlocks,
  timelineBlocks,
  partBlocks,
  sketchBlocks,
  yardsBlocks,
  beforeBlocks,
  loadBlocks,
  betweenBlocks,
  weatherBlocks,
  finishBlocks,
  publishedBlocks,
  remarkBlocks,
  photoBlocks,
  joinBlocks,
  changeBlocks,
  delayBlocks,
  clockBlocks,
  peopleBlocks,
  instrumentBlocks,
  limitBlocks,
  gapBlocks,
  closing,
]

/** A pure function of the model: what `record.pdf` shows and nothing else. */
export const pageOf = (model: RecordModel): Page => {
  const speech = speechOf(model)
  const ofDemo = (text: string) => (isDemoOrigin(model.origin) ? speech.say('recDemo', { text }) : text)
  const title = printable(ofDemo(speech.say('recTitle', { job: jobName(model, speech) })))
  const foot = speech.say(model.thread.some(({ is }) => is === 'withheld') ? 'recFooterPart' : 'recFooter', {
    job: [...jobName(model, speech)].slice(0, 60).join(''),
    size: model.checkpoint.size,
    made: model.made,
    words: model.fingerprint,
    withheld: model.thread.filter(({ is }) => is === 'withheld').length,
  })
  return {
    title,
    footer: printable(ofDemo(foot)),
    blocks: [
      { is: 'title', text: title } as const,
      ...SECTIONS.flatMap((blocks) => blocks(model, speech)),
    ].map(printableBlock),
  }
}

/** Every text run of the page but the feet, in order. */
export const pageLines = (page: Page): string[] => linesOf(page.blocks)

export const footerOf = (page: Page, number: number, of: number): string =>
  page.footer.replaceAll('{page}', String(number)).replaceAll('{pages}', String(of))
