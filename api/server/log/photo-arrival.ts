import type { Draft } from './draft.ts'

/**
 * Says in each job that names a photo that it has arrived, once: when the bytes come after the entry, or the entry after
 * the bytes.
 */
export const sayPhotoReceived = async (draft: Draft, photo: string): Promise<void> => {
  const blob = await draft.blob(photo)
  if (!blob) return
  const mentions = await draft.mentions(photo)
  const said = new Set(mentions.filter((m) => m.kind === 'photo.received').map((m) => m.job))
  const jobs = new Set(mentions.filter((m) => m.kind === 'photo.taken').map((m) => m.job))
  for (const job of jobs)
    if (!said.has(job)) await draft.say({ job, kind: 'photo.received', body: { photo, bytes: blob.bytes } })
}

/** Work for the sequencer: the photo is stored whole and its hash agreed. False where the log takes nothing more. */
export const photoArrived =
  (photo: { hash: string; bytes: number; type: string }) =>
  async (draft: Draft): Promise<boolean> => {
    if (draft.isStopped()) return false
    if (!(await draft.blob(photo.hash))) await draft.addBlob(photo)
    await sayPhotoReceived(draft, photo.hash)
    return true
  }
