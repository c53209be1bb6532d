/** What was made of photos: droppable at any time, and made again from the originals, which lie elsewhere. */
export type MadeStore = {
  /** One file of what a version made of a photo; undefined where it isn't there. */
  get(company: string, photo: string, name: MadeName): Promise<Uint8Array | undefined>
  /** Keeps a photo's files, the view last: where the view is, the others are too. */
  put(company: string, photo: string, files: ReadonlyMap<MadeName, Uint8Array>): Promise<void>
  /** Forgets all of it. */
  drop(): Promise<void>
}

/** The position lies in a file of its own: nobody reads it along with the rest. */
export type MadeName = 'small' | 'large' | 'position' | 'view'
export const MADE_ORDER: readonly MadeName[] = ['small', 'large', 'position', 'view']
