import type { Kind } from '../../entry/registry.ts'
import type { EntryModel, Statement } from '../history.ts'
import type { Speech } from './speech.ts'

/** `Slump, load 2`: what an entry is about. */
export const aboutText = (entry: Statement, speech: Speech): string => {
  const what = speech.words.kinds[entry.kind]
  const load = 'load' in entry.body ? entry.body.load : undefined
  return load === undefined ? what : `${what} (${speech.place(load)})`
}

const STAMPS: ReadonlySet<Kind> = new Set<Kind>([
  'load.arrived',
  'crew.ready',
  'discharge.started',
  'discharge.paused',
  'discharge.resumed',
  'discharge.ended',
  'load.left',
])

/** Whether all that an entry of this kind says is when something happened. */
export const isStamp = (kind: Kind): boolean => STAMPS.has(kind)

/** What it says, in one line, or what some of its members say; times are those of the event. */
export const valueText = (entry: EntryModel, speech: Speech, members?: ReadonlySet<string>): string => {
  if (isStamp(entry.kind)) return speech.time(entry.at)
  if (entry.kind === 'entry.withdrawn')
    return (entry.corrects ?? []).map((hash) => `${speech.countOf(hash) ?? hash}`).join(', ')
  const said = Object.entries(entry.body).filter(([name]) => members?.has(name) ?? name !== 'load')
  const text = speech.body(Object.fromEntries(said))
  return text === '' && members ? speech.say('recNotRecorded') : text
}
