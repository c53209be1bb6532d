import { Readable } from 'node:stream'
import { ZipFile } from 'yazl'

/** A member of the ZIP: small ones as bytes; a photo is opened when its turn comes. */
export type Member =
  | { readonly name: string; readonly bytes: Uint8Array }
  | { readonly name: string; readonly size: number; readonly open: () => Promise<ReadableStream<Uint8Array>> }

/** SPEC L37: stored, a plain file of mode 0644, and 1980-01-01 00:00, to which yazl takes any earlier date. */
const FORM = { compress: false, forceDosTimestamp: true, mode: 0o100644, mtime: new Date(0) } as const

/**
 * The ZIP as a stream, in the order given; the same bytes on any machine, in any zone. A member that can't be read, or
 * is not as long as was said, ends the stream with an error.
 */
export const writeZip = (members: readonly Member[]): ReadableStream<Uint8Array> => {
  const zip = new ZipFile()
  for (const member of members) {
    if ('bytes' in member) zip.addBuffer(Buffer.from(member.bytes), member.name, FORM)
    else
      zip.addReadStreamLazy(member.name, { ...FORM, size: member.size }, (done) => {
        member.open().then(
          (stream) => done(null, opened(stream, zip)),
          (error: unknown) => done(error, Readable.from([])),
        )
      })
  }
  const output = zip.outputStream as Readable
  zip.on('error', (error) => output.destroy(error as Error))
  zip.end()
  return Readable.toWeb(output) as ReadableStream<Uint8Array>
}

/** yazl does not listen for errors of a stream that it was handed. */
const opened = (stream: ReadableStream<Uint8Array>, zip: ZipFile): Readable => {
  const readable = Readable.fromWeb(stream as Parameters<typeof Readable.fromWeb>[0])
  readable.on('error', (error) => zip.emit('error', error))
  return readable
}
