import { getMeta, putMeta } from './kept.ts'
import type { PhoneWorld } from './phone-world.ts'

/** Keeps signed notes that can't both be true; the first hundred, since a liar could fill the phone with more. */
export const keepEvidence = (
  world: PhoneWorld,
  code: string,
  notes: readonly string[] = [],
): Promise<void> => {
  const at = world.localTime()
  return world.store.transact(async (tx) => {
    const known = (await getMeta(tx, 'evidence')) ?? []
    const own = (await getMeta(tx, 'company-log'))?.note
    const all = own === undefined ? notes : [own, ...notes]
    const again = known.some((e) => e.code === code && e.notes.join('\n') === all.join('\n'))
    if (!again && known.length < 100) await putMeta(tx, 'evidence', [...known, { code, notes: all, at }])
  })
}
