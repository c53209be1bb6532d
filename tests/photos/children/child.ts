import { createHash } from 'node:crypto'

/**
 * A child that misbehaves as the photo's last byte says, once it has the photo: for tests of what ends it. Like the
 * real one it says each step by message.
 */
const pieces: Buffer[] = []
for await (const piece of process.stdin) pieces.push(piece as Buffer)
const bytes = Buffer.concat(pieces)
const steps = process.argv.slice(2)
process.send?.({ step: 'read', hash: createHash('sha256').update(bytes).digest('hex') })

const HANGS = 1
const CRASHES = 2
const EATS = 3
/** Hangs on the tags alone; asked for the drawing, it draws nothing but a refusal. */
const HANGS_ON_TAGS = 4
const ENDS_EARLY = 5
const does = bytes.at(-1)

if (does === CRASHES) process.kill(process.pid, 'SIGSEGV')
if (does === ENDS_EARLY) process.exit(0)
if (does === HANGS || (does === HANGS_ON_TAGS && steps.includes('tags'))) for (;;);
if (does === EATS) {
  const held: Buffer[] = []
  setInterval(() => held.push(Buffer.alloc(32 * 1024 * 1024, 1)), 20)
}
if (does === HANGS_ON_TAGS) process.send?.({ step: 'draw', drawn: { is: 'failed', why: 'damaged' } })
