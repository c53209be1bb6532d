import { execFileSync } from 'node:child_process'
import { createWriteStream, readdirSync, readFileSync, statSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { toHex } from '../../api/domain/log/encoding.ts'
import { makeRecord } from '../../api/server/record/make-record.ts'
import { sha256 } from '../../api/server/senses.ts'
import { giveFile, openCheckPage, verdictOf } from '../browser/check-page.ts'
import { makeGoodLog } from '../damage/good-log.ts'
import { requestOf } from '../damage/make-good.ts'
import { newProfile, openBrowser } from '../kit/browser.ts'
import { createChance } from '../kit/chance.ts'

/**
 * Bench: `npx tsx tests/bench/verify-page.ts [photos] [bytes each]`. A record of 300 photos, 1 GB in all, is checked by
 * verify.html in a real browser, from file:// with the network cut. Prints the seconds from picking the file to the
 * verdict, and how much more memory all of the browser's processes held at most than before (proportional set size, so
 * that what they share counts once).
 */
const [count = 300, each = 3_500_000] = process.argv.slice(2).map(Number)
const noise = createChance(1).bytes(1_048_576)
/** Photos differ in their first bytes; the rest is noise, which no step could shorten. */
const photo = (n: number): Uint8Array => {
  const bytes = new Uint8Array(each)
  for (let at = 0; at < each; at += noise.length)
    bytes.set(noise.subarray(0, Math.min(noise.length, each - at)), at)
  new DataView(bytes.buffer).setUint32(0, n)
  return bytes
}

const hashes = new Map<string, number>()
for (let n = 0; n < count; n++) hashes.set(toHex(sha256(photo(n))), n)
const good = await makeGoodLog({
  words: 'bench',
  morePhotos: [...hashes.keys()].map((hash) => ({ hash, bytes: each })),
})
const request = requestOf(good)
const made = await makeRecord({
  ...request,
  photos: async (hash) => {
    const n = hashes.get(hash)
    return n === undefined ? request.photos(hash) : new Blob([photo(n) as Uint8Array<ArrayBuffer>]).stream()
  },
})
if (!made.ok) throw new Error(JSON.stringify(made.problem))
const folder = await mkdtemp(path.join(process.env.BENCH_TMP ?? tmpdir(), 'screedbook-bench-'))
const file = path.join(folder, 'record.zip')
await pipeline(
  Readable.fromWeb(made.value as Parameters<typeof Readable.fromWeb>[0]),
  createWriteStream(file),
)

/** Kilobytes of each process of the browser, by /proc: Linux alone. */
const heldNow = (profile: string): number => {
  let sum = 0
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      const group = execLine(pid)
      if (!group.includes(profile)) continue
      const pss = /^Pss:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8'))
      sum += Number(pss?.[1] ?? 0)
    } catch {
      // It ended in between.
    }
  }
  return sum / 1024
}
/** Renderers don't name the profile on their command line: their process group's leader does. */
const leaders = new Map<string, string>()
const execLine = (pid: string): string => {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
  const group = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[2]!
  const known = leaders.get(group)
  if (known !== undefined) return known
  const line = readFileSync(`/proc/${group}/cmdline`, 'utf8')
  leaders.set(group, line)
  return line
}

const profile = await newProfile()
const browser = await openBrowser(profile.folder)
try {
  const { asked, errors, cdp } = await openCheckPage(browser.context, browser.page)
  await new Promise((resolve) => setTimeout(resolve, 3000))
  const before = heldNow(profile.folder)
  let most = before
  const watch = setInterval(() => {
    most = Math.max(most, heldNow(profile.folder))
  }, 250)
  const begun = performance.now()
  await giveFile(cdp, file)
  const says = await verdictOf(browser.page, 600_000)
  const seconds = (performance.now() - begun) / 1000
  clearInterval(watch)
  const sum = performance.now()
  execFileSync('sha256sum', [file])
  console.log(
    JSON.stringify(
      {
        bytes: statSync(file).size,
        holds: says.holds,
        findings: says.findings.slice(0, 5),
        pdf: says.groups.pdf,
        seconds: Number(seconds.toFixed(1)),
        'sha256sum of the file, seconds': Number(((performance.now() - sum) / 1000).toFixed(1)),
        'idle browser, MB': Math.round(before),
        'growth, MB': Math.round(most - before),
        asked,
        errors,
      },
      null,
      2,
    ),
  )
} finally {
  await browser.close()
  await profile.remove()
  await rm(folder, { recursive: true, force: true })
}
