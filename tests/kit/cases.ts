import { readFileSync } from 'node:fs'

/** Cases as data: what is claimed, by which source, how closely, and rows of input and output. */
export type Cases<I, O> = {
  readonly claim: string
  readonly source: string
  readonly tolerance: string
  readonly rows: readonly { readonly name: string; readonly input: I; readonly output: O }[]
}

export const cases = <I = Record<string, never>, O = Record<string, never>>(name: string): Cases<I, O> =>
  JSON.parse(readFileSync(new URL(`../cases/${name}.json`, import.meta.url), 'utf8'))
