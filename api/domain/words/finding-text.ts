import type { EditionUsed, Shown } from '../job/findings/finding.ts'
import type { FindingModel, SourceModel } from '../record/finding-model.ts'
import type { Unit } from '../units.ts'
import type { EntryWords } from './entry-words.ts'
import { fill } from './fill.ts'
import type { FindingText, FindingWords } from './finding-words.ts'

/** How findings are said in one language: the same texts on paper and on screens. */
export type FindingSpeech = {
  readonly say: (key: FindingText, parts?: Readonly<Record<string, string | number>>) => string
  readonly name: (of: FindingModel['of']) => string
  readonly value: (finding: FindingModel) => string
  readonly limit: (finding: FindingModel) => string
  readonly verdict: (finding: FindingModel) => string
  /** Where limit and figure come from, and which edition was asked and who chose it. */
  readonly sources: (finding: FindingModel) => readonly string[]
  /** What to know beside the figure. */
  readonly notes: (finding: FindingModel) => readonly string[]
  readonly edition: (used: EditionUsed) => string
}

/** What is said in a record of a part of the entries: what it lacks may have been recorded all the same. */
const WHERE_PART: Readonly<Partial<Record<FindingText, FindingText>>> = {
  none: 'noneHere',
  nobodyChose: 'nobodyChoseHere',
  usual: 'usualHere',
  noLimit: 'noLimitHere',
  notRecorded: 'notHere',
  missing: 'missingHere',
}

/** `numberOf` says which entry chose an edition: its number in a record, its time on a phone. */
export const findingSpeech = (
  words: FindingWords,
  entry: EntryWords,
  numberOf: (hash: string) => string,
  isPart = false,
): FindingSpeech => {
  const say: FindingSpeech['say'] = (key, parts) =>
    fill(words.texts[(isPart ? WHERE_PART[key] : undefined) ?? key], parts ?? {})
  const unit = (name: string): string =>
    (words.units as Readonly<Record<string, string>>)[name] ?? entry.units[name as Unit] ?? name
  const shown = ({ text, unit: name }: Shown): string => `${text} ${unit(name)}`.trim()
  const source = ({ id, title, edition, clause, how }: SourceModel): string => {
    if (id === 'order' || id === 'ticket') return say(id)
    return [title, edition, clause, words.how[how]].filter((part) => part !== '').join(', ')
  }
  const edition: FindingSpeech['edition'] = ({ choice, edition: code, chosenIn }) => {
    const parts = {
      choice: (entry.fields as Readonly<Record<string, string>>)[choice] ?? choice,
      edition: (entry.codes as Readonly<Record<string, string>>)[code] ?? code,
      entries: chosenIn.map(numberOf).join(', '),
    }
    return say(chosenIn.length === 0 ? 'usual' : 'by', parts)
  }
  return {
    say,
    edition,
    name: (of) => words.names[of],
    value: ({ value, inputs }) => {
      const figure = value ? shown(value) : say('notRecorded')
      if (inputs.length === 0) return figure
      const of = inputs.map((input) => `${words.inputs[input.of]} ${shown(input)}`).join(', ')
      return `${figure} ${say('from', { inputs: of })}`
    },
    limit: ({ least, most, open }) => {
      if (least && most) return say('between', { least: shown(least), most: shown(most) })
      if (most) return say(open === 'under-most' ? 'under' : 'atMost', { most: shown(most) })
      return least ? say('atLeast', { least: shown(least) }) : say('noLimit')
    },
    verdict: ({ verdict }) => {
      if (verdict === 'limit-not-stated') return say('noLimit')
      return verdict === 'not-recorded' ? say('notRecorded') : words.verdicts[verdict]
    },
    sources: ({ source: limit, formula, editions }) => [
      ...(limit ? [say('limit', { source: source(limit) })] : []),
      ...(formula ? [say('formula', { source: source(formula) })] : []),
      ...editions.map(edition),
    ],
    notes: ({ missing, notes }) => [
      ...(missing.length === 0
        ? []
        : [say('missing', { missing: missing.map((one) => words.missing[one]).join(', ') })]),
      ...notes.map((note) => (isPart ? words.notesHere[note] : undefined) ?? words.notes[note]),
    ],
  }
}

/** What has one limit of one source and edition stands together, in the order in which each was first met. */
export const findingGroups = (
  findings: readonly FindingModel[],
  words: FindingSpeech,
): readonly (readonly FindingModel[])[] => {
  const groups = new Map<string, FindingModel[]>()
  for (const finding of findings) {
    const key = [finding.of, words.limit(finding), ...words.sources(finding)].join('\n')
    const known = groups.get(key)
    if (known) known.push(finding)
    else groups.set(key, [finding])
  }
  return [...groups.values()]
}
