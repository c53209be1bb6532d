import { readBest } from '../../../api/domain/phrase/read-best.ts'
import { readPhrase } from '../../../api/domain/phrase/read-phrase.ts'
import { createChance } from '../../kit/chance.ts'
import { mishear } from './generator/mishear.ts'
import { sentence } from './generator/say-sentence.ts'

/** `npx tsx tests/domain/phrase/bench.ts`: how long one reading takes, eight of one utterance, and a text of growing length. */
const percentile = (times: readonly number[], p: number): number =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length * p)]!
const timed = (work: () => unknown): number => {
  // Processor time: other programs of a busy machine don't count.
  const from = process.cpuUsage()
  work()
  const { user, system } = process.cpuUsage(from)
  return (user + system) / 1000
}
const show = (name: string, times: readonly number[]): void =>
  console.log(
    `${name.padEnd(34)} p50 ${percentile(times, 0.5).toFixed(3)} ms   p99 ${percentile(times, 0.99).toFixed(3)} ms   n ${times.length}`,
  )

const chance = createChance(11)
const said = Array.from({ length: 4000 }, () => sentence(chance).said)
for (const one of said.slice(0, 2000)) readPhrase(one)
show(
  'one reading',
  said.map((one) => timed(() => readPhrase(one))),
)
const context = { tickets: ['71340', '71352', '71371'], trucks: ['218', '106'] }
show(
  'eight of one utterance, with a job',
  said.slice(0, 1500).map((one) => {
    const list = [one, ...Array.from({ length: 7 }, () => mishear(one, chance, 0.1, 0.03))]
    return timed(() => readBest(list, context))
  }),
)
for (const length of [1250, 2500, 5000, 10_000]) {
  const text = said.join(' ').slice(0, length)
  const bare = text.replaceAll(/[.,]/g, '')
  show(
    `${length} characters`,
    Array.from({ length: 20 }, () => timed(() => readPhrase(text))),
  )
  show(
    `${length} characters without marks`,
    Array.from({ length: 20 }, () => timed(() => readPhrase(bare))),
  )
}
