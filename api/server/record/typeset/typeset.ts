import type { Page } from '../../../domain/record/page/page.ts'
import { fail, ok, type Result } from '../../../domain/result.ts'
import type { Language } from '../../../domain/words/words.ts'
import { breakable } from './breakable.ts'
import type { Prints } from './draw-prints.ts'
import { residentBytes } from './resident.ts'
import { startChild } from './start-child.ts'

/** What the child is asked: the page as JSON, the PDF's date in seconds since the epoch, and the prints by their hashes. */
export type TypesetJob = { readonly data: string; readonly createdAt: number; readonly photos: Prints }
export type TypesetAnswer = { readonly pdf: Uint8Array } | { readonly said: string }

export type TypesetProblem = 'typeset-failed' | 'typeset-time' | 'typeset-memory'
export type TypesetLimits = { readonly ms: number; readonly bytes: number }

/** A page takes a third of a second and 130 MB; ten times that is a page gone wrong. Source: our choice, measured. */
const LIMITS: TypesetLimits = { ms: 60_000, bytes: 1536 * 1024 * 1024 }
const WATCH_MS = 100

/**
 * The page as a PDF/A-3b, the same bytes for the same page and date. Runs in a child process of its own, one at a time:
 * a page that takes too long or too much ends the child, never the server. Fails: `typeset-failed` with what Typst
 * said, `typeset-time`, `typeset-memory`.
 */
export const typeset = (
  page: Page,
  {
    language,
    createdAt,
    prints = new Map(),
    limits = LIMITS,
  }: { language: Language; createdAt: number; prints?: Prints; limits?: TypesetLimits },
): Promise<Result<Uint8Array, TypesetProblem>> => {
  const data = JSON.stringify({
    ...page,
    blocks: page.blocks.map(breakable),
    language,
    photos: [...prints.keys()],
  })
  const turn = last.then(() =>
    runChild({ data, createdAt: Math.floor(createdAt / 1000), photos: prints }, limits),
  )
  last = turn.catch(() => {})
  return turn
}

/** Two cores and 250 MB a page: pages wait for each other. */
let last: Promise<unknown> = Promise.resolve()

const runChild = (job: TypesetJob, limits: TypesetLimits): Promise<Result<Uint8Array, TypesetProblem>> =>
  new Promise((resolve) => {
    const child = startChild('child.ts')
    let said = ''
    child.stderr?.on('data', (chunk: Buffer) => {
      said = (said + chunk.toString('utf8')).slice(-2000)
    })
    const end = (result: Result<Uint8Array, TypesetProblem>): void => {
      clearTimeout(timer)
      clearInterval(watch)
      child.removeAllListeners()
      child.kill('SIGKILL')
      resolve(result)
    }
    const timer = setTimeout(() => end(fail('typeset-time', '', { ms: limits.ms })), limits.ms)
    const watch = setInterval(() => {
      const bytes = child.pid === undefined ? undefined : residentBytes(child.pid)
      if (bytes !== undefined && bytes > limits.bytes) end(fail('typeset-memory', '', { bytes }))
    }, WATCH_MS)
    child.once('message', (answer: TypesetAnswer) =>
      end(
        'pdf' in answer ? ok(new Uint8Array(answer.pdf)) : fail('typeset-failed', '', { said: answer.said }),
      ),
    )
    child.once('error', (error) => end(fail('typeset-failed', '', { said: String(error) })))
    child.once('exit', (code, signal) =>
      end(fail('typeset-failed', '', { said: `${code ?? signal}: ${said}` })),
    )
    child.send(job)
  })
