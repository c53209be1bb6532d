import { createHash } from 'node:crypto'
import { setPriority } from 'node:os'
import type { ChildAnswer, ChildStep } from './run-child.ts'

/**
 * One photo, one process: the photo comes by standard input, each step's result goes by message as soon as it is there,
 * and then it ends. What a hostile file does to a parser stays in here and touches no other photo.
 */
const steps = process.argv.slice(2) as ChildStep[]

const say = (answer: ChildAnswer): Promise<void> =>
  new Promise((resolve) => {
    process.send?.(answer, () => resolve())
  })

const readInput = async (): Promise<Buffer> => {
  const pieces: Buffer[] = []
  for await (const piece of process.stdin) pieces.push(piece as Buffer)
  return Buffer.concat(pieces)
}

// People who wait for an answer come first.
setPriority(10)
// Before the photo: a program that can't be loaded is this machine's fault and not the photo's.
const readers = steps.includes('tags') ? await import('./read-exif.ts') : undefined
const drawers = steps.includes('draw') ? await import('./draw.ts') : undefined
drawers?.setUpSharp()
const bytes = await readInput()
await say({ step: 'read', hash: createHash('sha256').update(bytes).digest('hex') })
if (readers) await say({ step: 'tags', tags: await readers.readExif(bytes) })
if (drawers) await say({ step: 'draw', drawn: await drawers.draw(bytes, () => performance.now()) })
process.disconnect()
