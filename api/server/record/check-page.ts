import { execFile } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { fail, ok, type Result } from '../../domain/result.ts'

const FOLDER = new URL('../../verify/page/', import.meta.url)
const BUILD_MS = 120_000

/**
 * The checker's page, `verify.html`, as this release builds it. `npm run build` (and so `npm start`) has built it; where it
 * is not there yet it is built now, in a process of its own, once.
 * Fails: `check-page-unbuilt`, with what the build said.
 */
export const checkPage = async (): Promise<Result<Uint8Array, 'check-page-unbuilt'>> => {
  const built = await read()
  if (built) return ok(built)
  try {
    const build = fileURLToPath(new URL('build.ts', FOLDER))
    const env = { ...process.env, NODE_ENV: 'production' }
    await promisify(execFile)(process.execPath, ['--import', 'tsx', build], {
      cwd: fileURLToPath(new URL('../../..', FOLDER)),
      env,
      timeout: BUILD_MS,
    })
  } catch (error) {
    return fail('check-page-unbuilt', 'verify.html', { said: (error as Error).message.slice(0, 2000) })
  }
  const now = await read()
  return now ? ok(now) : fail('check-page-unbuilt', 'verify.html', { said: 'the build wrote nothing' })
}

const read = async (): Promise<Uint8Array | undefined> => {
  try {
    return new Uint8Array(await readFile(new URL('dist/verify.html', FOLDER)))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
    throw error
  }
}
