import type { RecordKey } from '../../words/record-words.ts'
import type { LoadModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import type { Row } from './cells.ts'
import { OUTCOME_ROWS } from './load-rows/outcome.ts'
import { READING_ROWS } from './load-rows/readings.ts'
import { TICKET_ROWS } from './load-rows/ticket.ts'
import { TIME_ROWS } from './load-rows/times.ts'
import { WATER_ROWS } from './load-rows/water.ts'
import { CAPTION_LINES, type Cited, type CitedPhotos, captionOf, citedPhotosOf } from './prints.ts'
import type { Speech } from './speech.ts'

/** Loads stand side by side, so many in a table: more would not leave room for an answer. */
const LOADS_ACROSS = 3

type Theme = {
  readonly heading: RecordKey
  readonly rows: readonly Row[]
  /** Photos of this kind stand in the table's first row. */
  readonly photos?: Cited
}

const THEMES: readonly Theme[] = [
  { heading: 'recThemeTicket', rows: TICKET_ROWS, photos: 'ticket' },
  { heading: 'recThemeTimes', rows: TIME_ROWS },
  { heading: 'recThemeWater', rows: WATER_ROWS, photos: 'water' },
  { heading: 'recThemeReadings', rows: READING_ROWS, photos: 'test' },
  { heading: 'recThemeOutcome', rows: OUTCOME_ROWS },
]

export const loadBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const { loads } = model.job
  const heading: Block = { is: 'heading', text: speech.say('recLoads') }
  if (loads.length === 0) return [heading, { is: 'paragraph', text: speech.say('recNoLoads') }]
  const cited = citedPhotosOf(model)
  return [heading, ...THEMES.flatMap((theme) => themeBlocks(theme, loads, cited, speech))]
}

/** Labels of the rows that are left out, since nothing in any load says them: told of among what was not recorded. */
export const silentRows = ({ job: { loads } }: RecordModel, speech: Speech): string[] =>
  loads.length === 0
    ? []
    : THEMES.flatMap(({ rows }) =>
        rows.filter((row) => !isShown(row, loads, speech)).map((row) => row.label(speech)),
      )

const isShown = ({ always, cell }: Row, loads: readonly LoadModel[], speech: Speech): boolean =>
  always === true || loads.some((load) => cell(load, speech).length > 0)

const themeBlocks = (
  theme: Theme,
  loads: readonly LoadModel[],
  cited: CitedPhotos,
  speech: Speech,
): Block[] => {
  const rows = theme.rows.filter((row) => isShown(row, loads, speech))
  const tables: Block[] = []
  for (let from = 0; from < loads.length; from += LOADS_ACROSS)
    tables.push(tableOf({ ...theme, rows }, loads.slice(from, from + LOADS_ACROSS), cited, speech))
  return [{ is: 'subheading', text: speech.say(theme.heading) }, ...tables]
}

const tableOf = (
  { rows, photos }: Theme,
  loads: readonly LoadModel[],
  cited: CitedPhotos,
  speech: Speech,
): Block => {
  const shown = loads.map(({ load }) => (photos === undefined ? [] : cited(load, photos)))
  const hasPhotos = shown.some((all) => all.length > 0)
  const columns = loads.length + 1
  return {
    is: 'table',
    columns,
    cells: [
      [],
      ...loads.map((load) => [headText(load, speech)]),
      ...(hasPhotos
        ? [
            [speech.say('recPhotos')],
            ...shown.map((all) => all.flatMap((photo) => captionOf(photo, undefined, speech))),
          ]
        : []),
      ...rows.flatMap(({ label, cell }) =>
        ofHeight(
          label(speech),
          loads.map((load) => {
            const lines = cell(load, speech)
            return lines.length === 0 ? [speech.say('recNotRecorded')] : lines
          }),
        ),
      ),
    ],
    ...(hasPhotos
      ? {
          pictures: Object.fromEntries(
            shown.flatMap((all, i) =>
              all.length === 0
                ? []
                : [
                    [
                      String(columns + 1 + i),
                      all.map(({ photo }, n) => ({
                        photo,
                        print: 'large' as const,
                        above: n * CAPTION_LINES,
                      })),
                    ],
                  ],
            ),
          ),
        }
      : {}),
  }
}

/** The ticket number names a load for good; its place by arrival may change when an earlier one is logged later. */
export const headText = ({ ordinal, tickets }: LoadModel, speech: Speech): string => {
  const numbers = [...new Set(tickets.flatMap(({ number }) => (number.is === 'given' ? [number.text] : [])))]
  return numbers.length === 1
    ? speech.say('recLoadTicket', { n: ordinal, number: numbers[0]! })
    : speech.say('recLoad', { n: ordinal })
}

/** A row goes on in further ones where it is too tall: a row that is never split must fit on a sheet. */
const ofHeight = (label: string, cells: readonly (readonly string[])[]): (readonly string[])[] => {
  const pieces = cells.map(inPieces)
  const most = Math.max(...pieces.map((all) => all.length))
  return Array.from({ length: most }, (_, i) => [
    i === 0 ? [label] : [],
    ...pieces.map((all) => all[i] ?? []),
  ]).flat()
}

/** Characters that surely fit on a line of a cell, and lines that surely fit on a sheet. */
const ON_A_LINE = 16
const ON_A_SHEET = 50

const inPieces = (lines: readonly string[]): string[][] => {
  const pieces: string[][] = [[]]
  let height = 0
  for (const line of lines) {
    const tall = Math.ceil(line.length / ON_A_LINE)
    if (height > 0 && height + tall > ON_A_SHEET) {
      pieces.push([])
      height = 0
    }
    pieces.at(-1)!.push(line)
    height += tall
  }
  return pieces
}
