import type { Reader } from '../reader.ts'

/** From here on memory is used again and not left for the browser to tidy up: a photo is some megabytes, a record has hundreds. */
const LARGE = 1024 * 1024

/** A file picked in a browser, read by slices; `onRead` hears how far the reading has come. */
export const readerOfFile = (file: Blob, onRead: (reached: number) => void): Reader => {
  let spare: ArrayBuffer | undefined
  return {
    size: file.size,
    read: async (offset, length) => {
      const part = file.slice(offset, offset + length)
      const bytes = part.size < LARGE ? await whole(part) : await into(part, takeSpare(part.size))
      onRead(Math.min(file.size, offset + bytes.length))
      return bytes
    },
    release: ({ buffer }) => {
      if (buffer instanceof ArrayBuffer && buffer.byteLength > (spare?.byteLength ?? 0)) spare = buffer
    },
  }

  function takeSpare(size: number): ArrayBuffer {
    const taken = spare && spare.byteLength >= size ? spare : new ArrayBuffer(Math.max(size, 4 * LARGE))
    spare = undefined
    return taken
  }
}

const whole = async (part: Blob): Promise<Uint8Array> => new Uint8Array(await part.arrayBuffer())

/** The part's bytes at the beginning of a buffer that is there already; that of browsers that can't, in one of their own. */
const into = async (part: Blob, buffer: ArrayBuffer): Promise<Uint8Array> => {
  const reader = byteReader(part)
  if (!reader) return whole(part)
  let [filled, memory] = [0, buffer]
  while (filled < part.size) {
    // Each turn hands the memory over and gets it back under another name.
    const { value, done } = await reader.read(new Uint8Array(memory, filled, part.size - filled))
    if (!value) throw new Error('the file ended while it was read')
    memory = value.buffer
    filled += value.length
    if (done) break
  }
  await reader.cancel()
  return new Uint8Array(memory, 0, filled)
}

const byteReader = (part: Blob): ReadableStreamBYOBReader | undefined => {
  try {
    return part.stream().getReader({ mode: 'byob' })
  } catch {
    return undefined
  }
}
