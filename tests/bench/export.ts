import { execFileSync, execSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { createReadStream, createWriteStream, readFileSync, statSync, writeFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import sharp from 'sharp'
import { makeRecord } from '../../api/server/record/make-record.ts'
import { makeGoodLog } from '../damage/good-log.ts'
import { requestOf } from '../damage/make-good.ts'
import { unpack } from '../damage/record-kit.ts'
import { createChance } from '../kit/chance.ts'

/**
 * Bench: `npx tsx tests/bench/export.ts [photos] [bytes each]`. The record of a job with 300 photos of 12 megapixels, 1 GB
 * in all, is made and written to a disk, beside `sha256sum` and `zip -0` over the same files in the same run. Prints the
 * seconds of both, the most that this process and each kind of child held (resident), and the PDF's size. Needs `zip`.
 */
const [count = 300, each = 3_500_000] = process.argv.slice(2).map(Number)
const [WIDE, HIGH] = [4000, 3000]

/** A photo's worth of light and grain; what is missing to its size follows after the picture's end, other in each file. */
const drawPicture = async (): Promise<Buffer> => {
  const grain = createChance(7).bytes(WIDE * HIGH)
  const raw = new Uint8Array(WIDE * HIGH * 3)
  for (let i = 0; i < WIDE * HIGH; i++) {
    const light = 110 + 60 * Math.sin((i % WIDE) / 90) + 30 * Math.cos(i / WIDE / 70)
    const value = light + (grain[i]! % 28)
    raw.set([value, value * 0.96, value * 0.92], i * 3)
  }
  return sharp(raw, { raw: { width: WIDE, height: HIGH, channels: 3 } })
    .jpeg({ quality: 80 })
    .toBuffer()
}
const picture = await drawPicture()
const folder = await mkdtemp(path.join(process.env.BENCH_TMP ?? tmpdir(), 'screedbook-export-'))
const files = new Map<string, string>()
const noise = createChance(1).bytes(Math.max(8, each - picture.length))
for (let n = 0; n < count; n++) {
  new DataView(noise.buffer).setUint32(0, n)
  const bytes = Buffer.concat([picture, noise])
  const hash = createHash('sha256').update(bytes).digest('hex')
  files.set(hash, path.join(folder, `${hash}.jpg`))
  writeFileSync(files.get(hash)!, bytes)
}

const before = process.memoryUsage().rss / 1024 / 1024
const held = new Map<string, number>()
const watch = setInterval(() => {
  try {
    for (const line of execSync(`ps -o rss=,args= --ppid ${process.pid}`).toString().split('\n')) {
      const child = /(print-child|child)\.ts/.exec(line)?.[1]
      if (child) held.set(child, Math.max(held.get(child) ?? 0, Number(line.trim().split(' ')[0]) / 1024))
    }
  } catch {
    // No child at this moment.
  }
  held.set('this process', Math.max(held.get('this process') ?? 0, process.memoryUsage().rss / 1024 / 1024))
}, 200)

try {
  const good = await makeGoodLog({
    words: 'bench',
    morePhotos: [...files.keys()].map((hash) => ({ hash, bytes: statSync(files.get(hash)!).size })),
  })
  const request = requestOf(good)
  const zip = path.join(folder, 'record.zip')
  const begun = performance.now()
  const made = await makeRecord({
    ...request,
    photos: async (hash) => {
      const file = files.get(hash)
      return file === undefined
        ? request.photos(hash)
        : (Readable.toWeb(createReadStream(file)) as ReadableStream<Uint8Array>)
    },
  })
  if (!made.ok) throw new Error(JSON.stringify(made.problem))
  await pipeline(
    Readable.fromWeb(made.value as Parameters<typeof Readable.fromWeb>[0]),
    createWriteStream(zip),
  )
  const seconds = (performance.now() - begun) / 1000
  clearInterval(watch)
  const beside = performance.now()
  execFileSync('sh', ['-c', 'sha256sum *.jpg > sums && zip -0 -q beside.zip *.jpg'], { cwd: folder })
  const other = (performance.now() - beside) / 1000
  const pdf = (await unpack(new Uint8Array(readFileSync(zip)))).get('record.pdf')!
  console.log(
    JSON.stringify(
      {
        bytes: statSync(zip).size,
        'export, s': Number(seconds.toFixed(1)),
        'sha256sum and zip -0, s': Number(other.toFixed(1)),
        'throughput against that': Number((other / seconds).toFixed(2)),
        'this process before, MB': Math.round(before),
        'most held, MB': Object.fromEntries([...held].map(([who, mb]) => [who, Math.round(mb)])),
        'PDF, MB': Number((pdf.length / 1e6).toFixed(1)),
      },
      null,
      2,
    ),
  )
} finally {
  clearInterval(watch)
  await rm(folder, { recursive: true, force: true })
}
process.exit(0)
