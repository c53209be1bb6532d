import { type FindingSpeech, findingGroups, findingSpeech } from '../../words/finding-text.ts'
import { FINDING_WORDS } from '../../words/finding-words.ts'
import type { FindingModel } from '../finding-model.ts'
import type { RecordModel } from '../model.ts'
import { type Block, orElse } from './blocks.ts'
import { capital, type Speech } from './speech.ts'

/**
 * The job’s figures beside limits of published texts. What has one limit of one source and edition stands in one table,
 * with that source above it; a conflict of editions gives a table for each.
 */
export const publishedBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const { findings, said } = model.job
  const isPart = model.thread.some(({ is }) => is === 'withheld')
  const words = findingSpeech(
    FINDING_WORDS[model.language],
    speech.words,
    (hash) => entryText(hash, speech),
    isPart,
  )
  const choices = said.editions.map((one) => speech.saidAt(speech.body(one.body), one))
  return [
    { is: 'heading', text: words.say('head') },
    { is: 'paragraph', text: words.say('intro') },
    {
      is: 'list',
      items: orElse(
        choices.map((text) => words.say('chosen', { choices: text })),
        words.say('nobodyChose'),
      ),
    },
    ...(findings.length === 0 ? [{ is: 'paragraph', text: words.say('none') } as const] : []),
    ...findingGroups(findings, words).flatMap((group) => groupBlocks(group, words, speech)),
  ]
}

const entryText = (hash: string, speech: Speech): string => {
  const n = speech.countOf(hash)
  return n === undefined ? speech.say('recBeforeUnknown') : speech.say('recEntry', { n })
}

const groupBlocks = (findings: readonly FindingModel[], words: FindingSpeech, speech: Speech): Block[] => {
  const first = findings[0]!
  const head = (['where', 'value', 'lies', 'entries'] as const).map((key) => capital(words.say(key)))
  return [
    { is: 'subheading', text: `${words.name(first.of)}: ${words.limit(first)}` },
    ...(words.sources(first).length > 0
      ? [{ is: 'paragraph', text: capital(`${words.sources(first).join('; ')}.`) } as const]
      : []),
    {
      is: 'grid',
      widths: [40, 60, 60, 24],
      rows: [head, ...findings.map((finding) => row(finding, words, speech))],
    },
  ]
}

const row = (finding: FindingModel, words: FindingSpeech, speech: Speech): string[] => [
  [
    finding.parts
      ? speech.where(finding.parts)
      : finding.load
        ? speech.place(finding.load)
        : words.say('wholeJob'),
    ...(finding.at === undefined ? [] : [speech.time(finding.at)]),
  ].join(', '),
  words.value(finding),
  [words.verdict(finding), ...words.notes(finding)].join('; '),
  finding.entries
    .flatMap((hash) => speech.countOf(hash) ?? [])
    .sort((a, b) => a - b)
    .join(', '),
]
