import { readFile, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fail, ok, type Result } from '../../api/domain/result.ts'
import { isAlive } from './postmaster.ts'
import { LOCKS, takeSessionLock } from './session-lock.ts'
import type { Target } from './target.ts'

/** A hold on a data folder by the one process that serves it. */
export type Hold = { release(): Promise<void> }

/**
 * One serving process a folder. `folder-in-use` names the holder's process where its file could be read. For embedded
 * databases only: several processes may serve one DATABASE_URL.
 */
export const holdFolder = async (
  target: Target,
  dataFolder: string,
): Promise<Result<Hold, 'folder-in-use'>> => {
  const file = join(dataFolder, 'serving.pid')
  const take = () =>
    takeSessionLock(target, async (client) => {
      const [row] = await client`select pg_try_advisory_lock(${LOCKS.ours}::int, ${LOCKS.serve}::int) as held`
      return row?.held === true
    })
  let lock = await take()
  const pid = Number.parseInt(await readFile(file, 'utf8').catch(() => ''), 10)
  // The server may need a moment to notice that a killed process is gone.
  for (let i = 0; !lock && !Number.isNaN(pid) && !isAlive(pid) && i < 50; i++) {
    await new Promise((resolve) => setTimeout(resolve, 100))
    lock = await take()
  }
  if (!lock) return fail('folder-in-use', dataFolder, Number.isNaN(pid) ? {} : { pid })
  const { end } = lock
  await writeFile(file, `${process.pid}\n`)
  return ok({
    release: async () => {
      await rm(file, { force: true })
      await end()
    },
  })
}
