/** A file that can be read at any place: bytes in memory, a file on disk, or a file picked in a browser. */
export type Reader = {
  readonly size: number
  /** As many bytes as there are from `offset`, at most `length`. */
  readonly read: (offset: number, length: number) => Promise<Uint8Array>
}

export const readerOf = (whole: Uint8Array): Reader => ({
  size: whole.length,
  read: async (offset, length) => whole.subarray(offset, offset + length),
})
