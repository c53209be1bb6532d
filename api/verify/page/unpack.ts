/**
 * Readers that are larger than all the rest (PDFs, certificates) lie packed in the page, and are unpacked when a record has
 * come. Undefined where this browser can't, and the page then says what was not checked.
 */
export const unpack = async <Module>(packed: string): Promise<Module | undefined> => {
  try {
    const bytes = Uint8Array.from(atob(packed.trim()), (c) => c.charCodeAt(0))
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))
    const code = await new Response(stream).text()
    const url = URL.createObjectURL(new Blob([code], { type: 'text/javascript' }))
    try {
      return await import(/* @vite-ignore */ url)
    } finally {
      URL.revokeObjectURL(url)
    }
  } catch (error) {
    console.warn(error)
    return undefined
  }
}
