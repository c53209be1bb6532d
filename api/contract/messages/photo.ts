/** Where an upload goes on: the number of bytes that the server holds, in the answers to `…/held` and `PUT`. */
export const PHOTO_OFFSET = 'upload-offset'
/** `PUT`: the whole photo's size, so that the server knows when it has all. */
export const PHOTO_LENGTH = 'upload-length'
export const PHOTO_PART_BYTES = 512 * 1024
export const MAX_PHOTO_BYTES = 64 * 1024 * 1024
