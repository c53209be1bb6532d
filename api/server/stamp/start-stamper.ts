import { webcrypto } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { fail, ok, type Result } from '../../domain/result.ts'
import { readCertificates } from '../../verify/timestamp/pem.ts'
import { timestampReader } from '../../verify/timestamp/read-timestamp.ts'
import { createSequencer } from '../log/sequencer.ts'
import type { ServerWorld } from '../world.ts'
import { httpAuthority, isAuthorityUrl } from './authority.ts'
import { createStamper } from './stamper.ts'

const EVERY_MS = 5 * 60_000

/** An authority to ask (TIMESTAMP_URL), and the certificates that its answers must lead to (TIMESTAMP_CA), if any were named. */
export type Authority = { readonly url: string; readonly roots: readonly Uint8Array[] }
export type AuthorityProblem = 'timestamp-url-malformed' | 'timestamp-ca-malformed'

/** From the environment; undefined where no authority is set. Fails by codes that name the variable. */
export const authorityFromEnvironment = async (): Promise<
  Result<Authority | undefined, AuthorityProblem>
> => {
  const { TIMESTAMP_URL: url, TIMESTAMP_CA: file } = process.env
  if (!url) return ok(undefined)
  if (!isAuthorityUrl(url)) return fail('timestamp-url-malformed', url)
  if (!file) return ok({ url, roots: [] })
  const text = await readFile(file, 'utf8').catch(() => '')
  const roots = readCertificates(text)
  return roots.ok ? ok({ url, roots: roots.value }) : fail('timestamp-ca-malformed', file)
}

/** Begins to stamp, now and every five minutes; `close` breaks off what is under way. */
export const startStamper = (world: ServerWorld, { url, roots }: Authority): { close(): Promise<void> } => {
  const stop = new AbortController()
  const { tick } = createStamper({
    ...world,
    sequencer: createSequencer(world),
    ask: httpAuthority(url, stop.signal),
    read: timestampReader(webcrypto as Crypto),
    roots,
  })
  let last = tick()
  const timer = setInterval(() => {
    last = tick()
  }, EVERY_MS)
  return {
    close: async () => {
      clearInterval(timer)
      stop.abort()
      await last
    },
  }
}
