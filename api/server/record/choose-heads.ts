import type { DeviceLeafRow, HeadRow, LeafRow } from '../../../db/log-store/log-store.ts'

/** A head, and the entries to prove under it with their places in its tree. */
export type ChosenHead = {
  readonly row: HeadRow
  readonly entries: readonly { readonly entryHash: string; readonly index: number }[]
}

/**
 * For each entry, the newest head of its device as of the checkpoint. A head that came later without adding a leaf has
 * the same size of the log beside it, so its time of receipt is compared too: a record of one checkpoint stays the same
 * whatever is pushed afterwards. An entry that a device took along into a new epoch is proven in the earliest one.
 */
export const chooseHeads = (
  leaves: readonly LeafRow[],
  places: readonly DeviceLeafRow[],
  heads: readonly HeadRow[],
  checkpointSize: number,
  made: number,
): ChosenHead[] => {
  const eligible = heads
    .filter(
      (h) =>
        !h.disputed && (h.atSize < checkpointSize || (h.atSize === checkpointSize && h.receivedAt <= made)),
    )
    .sort((a, b) => b.size - a.size || a.receivedAt - b.receivedAt || (a.note < b.note ? -1 : 1))
  const newest = new Map<string, HeadRow>()
  for (const head of eligible) {
    const log = `${head.device}/${head.epoch}`
    if (!newest.has(log)) newest.set(log, head)
  }
  const placesOf = new Map<string, DeviceLeafRow[]>()
  for (const place of places) placesOf.set(place.entryHash, [...(placesOf.get(place.entryHash) ?? []), place])
  const chosen = new Map<HeadRow, { entryHash: string; index: number }[]>()
  for (const { entryHash, device } of leaves) {
    const [place] = (placesOf.get(entryHash) ?? [])
      .filter((p) => p.device === device)
      .filter((p) => p.index < (newest.get(`${p.device}/${p.epoch}`)?.size ?? 0))
      .sort((a, b) => a.epoch - b.epoch || a.index - b.index)
    if (!place) continue
    const head = newest.get(`${place.device}/${place.epoch}`)!
    const entries = chosen.get(head) ?? []
    entries.push({ entryHash, index: place.index })
    chosen.set(head, entries)
  }
  return [...chosen].map(([row, entries]) => ({ row, entries }))
}
