import { type ChildProcess, spawn } from 'node:child_process'
import { createRequire } from 'node:module'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { residentBytes } from '../../record/typeset/resident.ts'
import type { ExifTags } from '../exif/exif-facts.ts'
import type { Drawn } from './draw.ts'

export type ChildStep = 'tags' | 'draw'
export type ChildAnswer =
  | { readonly step: 'read'; readonly hash: string }
  | { readonly step: 'tags'; readonly tags: ExifTags }
  | { readonly step: 'draw'; readonly drawn: Drawn }

export type ChildLimits = { readonly ms: number; readonly bytes: number }

/** What a child got done, and why it did not get further. */
export type ChildEnd = {
  readonly tags?: ExifTags
  readonly drawn?: Drawn
  /**
   * `unread`: it ended before it had the photo, so the photo did nothing; `stopped`: we ended it; `differs`: the
   * original is no longer what its name says.
   */
  readonly ended: 'done' | 'crashed' | 'time' | 'memory' | 'unread' | 'stopped' | 'differs'
}

/**
 * Turned photos of 49 megapixels took 0.2–0.9 s and 155–290 MiB; the worst made on purpose (PNG, interlaced, 16 bits,
 * see-through) 2.1 s and 570 MiB. Source: measured 2026-11-25 on two cores; the limits are our choice.
 */
export const CHILD_LIMITS: ChildLimits = { ms: 20_000, bytes: 1024 * 1024 * 1024 }
const WATCH_MS = 50
const CHILD = fileURLToPath(new URL('./child.ts', import.meta.url))

/**
 * Takes the steps in a child process of its own, with a limit of time, begun anew with each step, and of memory (read
 * from /proc, so on Linux alone). Never rejects for what the photo does.
 */
export const runChild = (
  photo: { readonly hash: string; readonly stream: ReadableStream<Uint8Array> },
  steps: readonly ChildStep[],
  given: { readonly limits: ChildLimits; readonly stop: AbortSignal; readonly child?: string | undefined },
): Promise<ChildEnd> =>
  new Promise((resolve) => {
    const { limits, stop } = given
    const child = start(given.child ?? CHILD, steps)
    let got: Omit<ChildEnd, 'ended'> = {}
    let read = false
    const end = (ended: ChildEnd['ended']): void => {
      clearTimeout(timer)
      clearInterval(watch)
      stop.removeEventListener('abort', stopped)
      child.removeAllListeners()
      child.on('error', () => {})
      child.kill('SIGKILL')
      resolve({ ...got, ended })
    }
    const stopped = () => end('stopped')
    const late = () => end(read ? 'time' : 'unread')
    let timer = setTimeout(late, limits.ms)
    const watch = setInterval(() => {
      const bytes = child.pid === undefined ? undefined : residentBytes(child.pid)
      if (bytes !== undefined && bytes > limits.bytes) end('memory')
    }, WATCH_MS)
    stop.addEventListener('abort', stopped)
    child.on('message', (answer: ChildAnswer) => {
      if (answer.step === 'read') {
        if (answer.hash !== photo.hash) return end('differs')
        read = true
      }
      if (answer.step === 'tags') got = { ...got, tags: answer.tags }
      if (answer.step === 'draw') got = { ...got, drawn: answer.drawn }
      if (answer.step === steps.at(-1)) return end('done')
      clearTimeout(timer)
      timer = setTimeout(late, limits.ms)
    })
    child.once('error', () => end('unread'))
    child.once('exit', () => end(read ? 'crashed' : 'unread'))
    // A child that ends while it is given the photo is known by its exit.
    pipeline(Readable.fromWeb(photo.stream as Parameters<typeof Readable.fromWeb>[0]), child.stdin!).catch(
      () => {
        if (!read) end('unread')
      },
    )
  })

/** Seconds of a core that a child may take in all, by the system's own limit: it holds also where the server is gone. */
const MOST_CPU_S = 60

const start = (file: string, steps: readonly ChildStep[]): ChildProcess => {
  const tsx = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href
  const node = [process.execPath, '--import', tsx, '--max-old-space-size=256', file, ...steps]
  return spawn('/bin/sh', ['-c', `ulimit -t ${MOST_CPU_S}; exec "$@"`, 'sh', ...node], {
    // Nothing of this machine's settings, and no secret of the server's.
    env: { PATH: process.env.PATH, TZ: 'UTC', LANG: 'C', MALLOC_ARENA_MAX: '2' },
    serialization: 'advanced',
    stdio: ['pipe', 'ignore', 'ignore', 'ipc'],
  })
}
