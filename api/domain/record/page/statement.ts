import type { EntryModel, Statement } from '../history.ts'
import type { Speech } from './speech.ts'

/** `Slump, load 2`: what an entry is about. */
export const aboutText = (entry: Statement, speech: Speech): string => {
  const what = speech.words.kinds[entry.kind]
  const load = 'load' in entry.body ? entry.body.load : undefined
  return load === undefined ? what : `${what} (${speech.place(load)})`
}

/** What it says, in one line; times are those of the event. */
export const valueText = (entry: EntryModel, speech: Speech): string => {
  switch (entry.kind) {
    case 'load.arrived':
    case 'crew.ready':
    case 'discharge.started':
    case 'discharge.paused':
    case 'discharge.resumed':
    case 'discharge.ended':
    case 'load.left':
      return speech.time(entry.at)
    case 'entry.withdrawn':
      return (entry.corrects ?? []).map((hash) => `${speech.countOf(hash) ?? hash}`).join(', ')
    default: {
      // Where the load is named, `aboutText` says it.
      const { load: _, ...body } = entry.body as { load?: string }
      return speech.body(body)
    }
  }
}
