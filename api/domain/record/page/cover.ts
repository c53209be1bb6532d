import type { RecordModel } from '../model.ts'
import { isScoped, type Withheld } from '../request.ts'
import { box, type Drawing, type Mark, SHEET_WIDE, words } from './drawing.ts'
import { gapLines } from './gaps.ts'
import { headText } from './loads.ts'
import { runsText } from './runs.ts'
import type { Speech } from './speech.ts'

/** How much there is of what a reader asks about first, in large numerals. */
export const tallyDrawing = (model: RecordModel, speech: Speech): Drawing => {
  const { job, thread } = model
  const counts = [
    [thread.length, 'recTallyEntries'],
    [job.loads.length, 'recTallyLoads'],
    [job.history.filter(({ late }) => late === 'yes').length, 'recTallyLate'],
    [job.changes.length, 'recTallyChanges'],
    [thread.filter(({ is }) => is === 'withheld').length, 'recTallyWithheld'],
    [gapLines(model, speech).length, 'recTallyGaps'],
  ] as const
  const wide = SHEET_WIDE / counts.length
  return {
    is: 'drawing',
    width: SHEET_WIDE,
    height: 190,
    marks: counts.flatMap(([n, label], i): Mark[] => [
      box([i * wide, 10], [wide - 20, 165], 'none', 20),
      ...words([i * wide + 18, 24], String(n), { room: wide - 56, size: 230, bold: true }),
      ...words([i * wide + 18, 120], speech.say(label), { room: wide - 50, size: 80 }),
    ]),
  }
}

/** The eight words, as large as they are read aloud. */
export const fingerprintDrawing = ({ fingerprint }: RecordModel): Drawing => ({
  is: 'drawing',
  width: SHEET_WIDE,
  height: 100,
  marks: [
    box([0, 8], [SHEET_WIDE - 20, 80], 'none', 30),
    ...words([24, 26], fingerprint, { room: SHEET_WIDE - 70, size: 130, bold: true }),
  ],
})

/** `Curt (92), Marisol (61)`: who logged how many of the entries that are here. */
export const loggedByText = ({ job }: RecordModel, speech: Speech): string => {
  const counts = new Map<string, number>()
  for (const { by } of job.history) counts.set(speech.who(by), (counts.get(speech.who(by)) ?? 0) + 1)
  const all = [...counts].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
  return all.map(([who, n]) => `${who} (${n})`).join(', ') || speech.say('recNobody')
}

/** What the record is of, and what it keeps back; where entries are missing, at which places. */
export const scopeRows = (model: RecordModel, speech: Speech): [string, string][] => {
  const { request, thread, job } = model
  const missing = thread.filter(({ is }) => is === 'withheld').map(({ count }) => count)
  const placement = job.said.placements.find(({ body }) => body.placement === request.placement)?.body.name
  const of = [
    ...(request.load === undefined ? [] : [loadText(model, request.load, speech)]),
    ...(request.placement === undefined ? [] : [placement ?? request.placement]),
    ...(request.from === undefined ? [] : [speech.say('recScopeFrom', { day: request.from })]),
    ...(request.to === undefined ? [] : [speech.say('recScopeTo', { day: request.to })]),
  ]
  return [
    [speech.say('recScope'), isScoped(request) ? of.join(', ') : speech.say('recScopeWhole')],
    ...(request.withhold.length === 0
      ? []
      : [
          [
            speech.say('recWithholdAsked'),
            request.withhold.map((kind) => withheldText(kind, speech)).join(', '),
          ] as [string, string],
        ]),
    ...(missing.length === 0
      ? []
      : [
          [
            speech.say('recMissingEntries'),
            speech.say('recMissingEntriesAre', { n: missing.length, entries: runsText(missing) }),
          ] as [string, string],
        ]),
  ]
}

/** A load's number is its place among those that are here: its ticket says which it is. */
const loadText = ({ job }: RecordModel, id: string, speech: Speech): string => {
  const load = job.loads.find((one) => one.load === id || one.joined.includes(id))
  return load ? speech.say('recScopeLoad', { load: headText(load, speech) }) : id
}

const withheldText = (kind: Withheld, speech: Speech): string =>
  kind === 'personal' ? speech.say('recWithholdPersonal') : speech.words.kinds[kind]
