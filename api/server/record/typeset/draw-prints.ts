import type { ChildProcess } from 'node:child_process'
import type { Picture } from '../../../domain/record/page/blocks.ts'
import { startChild } from './start-child.ts'

/** A photo's bytes, and how large it will stand on the page. */
export type PrintJob = { readonly bytes: Uint8Array; readonly print: Picture['print'] }
export type PrintAnswer = { readonly jpeg?: Uint8Array }

/** JPEGs by the photo's hash; one that could not be drawn is not there. */
export type Prints = ReadonlyMap<string, Uint8Array>

/** A photo takes a tenth of a second; this many times that is a photo gone wrong. Source: our choice, measured. */
const MOST_MS = 20_000
/** Larger files are no photo of a phone, and would only fill the memory. Source: our choice. */
const MOST_BYTES = 64 * 1024 * 1024

/**
 * The photos of a page as they are printed, drawn from the originals one after another in a child process: a photo that
 * breaks the child is left out, and the next one gets another. The same originals give the same bytes with one release of
 * the drawing library, which the lock file names.
 */
export const drawPrints = async (
  pictures: readonly Picture[],
  open: (photo: string) => Promise<ReadableStream<Uint8Array> | undefined>,
): Promise<Prints> => {
  const prints = new Map<string, Uint8Array>()
  let child: ChildProcess | undefined
  try {
    for (const { photo, print } of pictures) {
      const stream = await open(photo)
      const bytes = stream && (await allOf(stream))
      if (!bytes) continue
      child ??= startChild('print-child.ts')
      const answer = await ask(child, { bytes, print })
      if (answer?.jpeg) prints.set(photo, answer.jpeg)
      if (answer) continue
      child.kill('SIGKILL')
      child = undefined
    }
  } finally {
    child?.kill('SIGKILL')
  }
  return prints
}

const allOf = async (stream: ReadableStream<Uint8Array>): Promise<Uint8Array | undefined> => {
  const chunks: Uint8Array[] = []
  let size = 0
  for await (const chunk of stream) {
    size += chunk.length
    if (size > MOST_BYTES) return undefined
    chunks.push(chunk)
  }
  return new Uint8Array(Buffer.concat(chunks))
}

/** Undefined where the child ended, or took too long. */
const ask = (child: ChildProcess, job: PrintJob): Promise<PrintAnswer | undefined> =>
  new Promise((resolve) => {
    const end = (answer: PrintAnswer | undefined): void => {
      clearTimeout(timer)
      child.off('message', end)
      child.off('error', gone)
      child.off('exit', gone)
      resolve(answer)
    }
    const gone = (): void => end(undefined)
    const timer = setTimeout(gone, MOST_MS)
    child.on('message', end)
    child.once('error', gone)
    child.once('exit', gone)
    child.send(job, (error) => {
      if (error) gone()
    })
  })
