/** A piece of work beside the plainest code that could stand for it, in the same run. */
export type Row = {
  readonly name: string
  readonly work: () => unknown
  readonly plain: () => unknown
  /** Items that one call handles. */
  readonly items?: number
}

const cpuNs = (): number => {
  const { user, system } = process.cpuUsage()
  return (user + system) * 1_000
}

/** CPU per call: the least of several rounds, since other work on the machine only adds. */
const measure = (work: () => unknown, milliseconds: number): number => {
  let calls = 1
  for (;;) {
    const before = cpuNs()
    for (let i = 0; i < calls; i++) kept = work()
    const spent = cpuNs() - before
    if (spent >= milliseconds * 1e6) {
      const rounds = [spent / calls]
      for (let round = 0; round < 4; round++) {
        const start = cpuNs()
        for (let i = 0; i < calls; i++) kept = work()
        rounds.push((cpuNs() - start) / calls)
      }
      return Math.min(...rounds)
    }
    calls *= 2
  }
}
/** Kept, so that no work is thought away. */
let kept: unknown
export const lastKept = (): unknown => kept

const show = (ns: number): string =>
  ns >= 1e6
    ? `${(ns / 1e6).toFixed(2)} ms`
    : ns >= 1e3
      ? `${(ns / 1e3).toFixed(2)} µs`
      : `${ns.toFixed(1)} ns`

/** Measures each row and prints it; `milliseconds` of CPU at the least go into each round. */
export const printTable = (title: string, rows: readonly Row[], milliseconds = 60): void => {
  process.stdout.write(
    `\n${title.padEnd(34)}${'CPU an item'.padStart(14)}${'plain'.padStart(14)}${'times'.padStart(10)}\n`,
  )
  for (const { name, work, plain, items = 1 } of rows) {
    const [ours, theirs] = [measure(work, milliseconds) / items, measure(plain, milliseconds) / items]
    const times = `${(ours / theirs).toFixed(1)} ×`
    process.stdout.write(
      `${name.padEnd(34)}${show(ours).padStart(14)}${show(theirs).padStart(14)}${times.padStart(10)}\n`,
    )
  }
}
