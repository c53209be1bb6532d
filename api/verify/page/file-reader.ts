import type { Reader } from '../reader.ts'

/** A file picked in a browser, read by slices; `onRead` hears how far the reading has come. */
export const readerOfFile = (file: Blob, onRead: (reached: number) => void): Reader => ({
  size: file.size,
  read: async (offset, length) => {
    const part = file.slice(offset, offset + length)
    const bytes = new Uint8Array(await part.arrayBuffer())
    onRead(Math.min(file.size, offset + bytes.length))
    return bytes
  },
})
