/** How many tries each fuzz gets, and from which seed: few in the everyday run, as many as asked for by `npm run fuzz`. */
export const RUNS = Number(process.env.FUZZ_RUNS ?? 120)
export const SEED = Number(process.env.FUZZ_SEED ?? 20260421)
/** Longer runs take longer. */
export const FUZZ_TIMEOUT = 60_000 + RUNS * 200
