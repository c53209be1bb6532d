/** `3–7, 12`: numbers in order, runs of them by their ends. */
export const runsText = (numbers: readonly number[]): string => {
  const runs: [number, number][] = []
  for (const n of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1)
    if (last && n <= last[1] + 1) last[1] = n
    else runs.push([n, n])
  }
  return runs.map(([from, to]) => (from === to ? String(from) : `${from}–${to}`)).join(', ')
}
