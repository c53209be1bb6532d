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

/** Two photos at a time leave a machine of two cores to the drawing, and no more than two in memory. Source: our choice, measured. */
const LANES = 2

/**
 * The photos of a page as they are printed, drawn from the originals one after another in each of two child processes: a
 * photo that breaks its child is left out, and the next one gets another. The same originals give the same bytes with one
 * release of the drawing library, which the lock file names.
 */
export const drawPrints = async (
  pictures: readonly Picture[],
  open: (photo: string) => Promise<ReadableStream<Uint8Array> | undefined>,
): Promise<Prints> => {
  const drawn = new Map<string, Uint8Array>()
  const left = [...pictures].reverse()
  const lanes = Array.from({ length: Math.min(LANES, pictures.length) }, () =>
    drawInTurn(
      () => left.pop(),
      open,
      (photo, jpeg) => drawn.set(photo, jpeg),
    ),
  )
  await Promise.all(lanes)
  // In the page's order, whichever was ready first.
  return new Map(
    pictures.flatMap(({ photo }) => {
      const jpeg = drawn.get(photo)
      return jpeg ? [[photo, jpeg] as const] : []
    }),
  )
}

const drawInTurn = async (
  next: () => Picture | undefined,
  open: (photo: string) => Promise<ReadableStream<Uint8Array> | undefined>,
  keep: (photo: string, jpeg: Uint8Array) => void,
): Promise<void> => {
  let child: ChildProcess | undefined
  try {
    for (let picture = next(); picture; picture = next()) {
      const stream = await open(picture.photo)
      const bytes = stream && (await allOf(stream))
      if (!bytes) continue
      child ??= startChild('print-child.ts')
      const answer = await ask(child, { bytes, print: picture.print })
      if (answer?.jpeg) keep(picture.photo, answer.jpeg)
      if (answer) continue
      child.kill('SIGKILL')
      child = undefined
    }
  } finally {
    child?.kill('SIGKILL')
  }
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
