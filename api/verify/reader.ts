/** A file that can be read at any place: bytes in memory, a file on disk, or a file picked in a browser. */
export type Reader = {
  readonly size: number
  /** As many bytes as there are from `offset`, at most `length`. */
  readonly read: (offset: number, length: number) => Promise<Uint8Array>
  /** Bytes that `read` gave and that nobody looks at any more: a browser that is told so frees them at once. */
  readonly release?: (bytes: Uint8Array) => void
}

export const readerOf = (whole: Uint8Array): Reader => ({
  size: whole.length,
  read: async (offset, length) => whole.subarray(offset, offset + length),
})

/**
 * A reader that fetches at least `least` bytes and serves what follows from them: a record has thousands of small files
 * side by side, and each way to a file picked in a browser costs a millisecond. One piece is held at a time.
 */
export const readAhead = (reader: Reader, least: number): Reader => {
  let held = { from: 0, bytes: new Uint8Array() as Uint8Array }
  return {
    size: reader.size,
    // Shorter ones are copies out of the piece.
    release: (bytes) => {
      if (bytes.length >= least) reader.release?.(bytes)
    },
    read: async (offset, length) => {
      if (length >= least) return reader.read(offset, length)
      const end = Math.min(offset + length, reader.size)
      if (offset < held.from || end > held.from + held.bytes.length)
        held = { from: offset, bytes: await reader.read(offset, least) }
      const { from, bytes } = held
      // A copy: what is kept of it must not keep the whole piece alive.
      return bytes.slice(offset - from, offset - from + length)
    },
  }
}

/** The parts of a stretch, in order, none longer than `most`. */
export async function* partsOf(
  reader: Reader,
  offset: number,
  size: number,
  most: number,
): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < size; ) {
    const part = await reader.read(offset + at, Math.min(most, size - at))
    // The file became shorter while it was read.
    if (part.length === 0) return
    at += part.length
    yield part
  }
}
