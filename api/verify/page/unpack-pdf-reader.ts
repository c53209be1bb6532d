import type { ReadPdfText } from '../figures.ts'

/**
 * The reader of PDFs lies packed in the page, since it is larger than all the rest; it is unpacked when a record has come.
 * Undefined where this browser can't, and the page then says that the PDF was not compared.
 */
export const unpackPdfReader = async (packed: string): Promise<ReadPdfText | undefined> => {
  try {
    const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0))
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))
    const code = await new Response(stream).text()
    const url = URL.createObjectURL(new Blob([code], { type: 'text/javascript' }))
    try {
      const loaded: { readPdfText: ReadPdfText } = await import(/* @vite-ignore */ url)
      return loaded.readPdfText
    } finally {
      URL.revokeObjectURL(url)
    }
  } catch (error) {
    console.warn(error)
    return undefined
  }
}
