import type { PhotoPosition, PhotoView } from '../../../contract/messages/photo-view.ts'

/** The version of what is made of a photo. A change of the reading or the drawing counts up, and all is made anew. */
export const VIEW_VERSION = 1

/**
 * Facts and renditions of photos that are whole: projections, made once from the original and kept, failures too.
 * `undefined` where the photo isn't there, and `busy` where too many wait or this machine could not try: ask again.
 */
export type PhotoViews = {
  /** The photo has come: makes its view when there is time. Never fails, and is never waited for. */
  arrived(company: string, photo: string): void
  view(company: string, photo: string): Promise<PhotoView | 'busy' | undefined>
  /** Exact and personal: for those who may see the original. */
  position(company: string, photo: string): Promise<PhotoPosition | undefined>
  /** The JPEG; undefined where the photo could not be drawn. The view says why. */
  rendition(company: string, photo: string, size: 'small' | 'large'): Promise<Uint8Array | 'busy' | undefined>
  /** Forgets all that was made; it is made again when it is asked for. */
  drop(): Promise<void>
  /** Ends what runs. What was under way counts as not tried. */
  close(): Promise<void>
}

/** For a simulator, and wherever no photo is looked at. */
export const noPhotoViews: PhotoViews = {
  arrived: () => {},
  view: async () => undefined,
  position: async () => undefined,
  rendition: async () => undefined,
  drop: async () => {},
  close: async () => {},
}
