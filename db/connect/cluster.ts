import { randomBytes } from 'node:crypto'
import { access, chown, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fail, ok, type Result } from '../../api/domain/result.ts'
import type { Place } from './place.ts'
import { isAlive } from './postmaster.ts'
import { runAs } from './runner.ts'

/** A database cluster and the password of its owner, which lies beside it. */
export type Cluster = { readonly data: string; readonly password: string }

export const OWNER = 'screedbook'

/**
 * The place's cluster, made where there is none. It is made under another name and renamed when whole, with its
 * password: a process killed half-way leaves nothing that looks like a cluster, and of two that start at once one wins.
 */
export const openCluster = async (place: Place): Promise<Result<Cluster, 'database-not-made'>> => {
  const folder = join(place.state, 'cluster')
  if (!(await exists(folder))) {
    await sweep(place.state)
    const made = await makeCluster(
      place,
      `${folder}.new-${process.pid}-${randomBytes(4).toString('hex')}`,
      folder,
    )
    if (!made.ok) return made
  }
  return ok({
    data: join(folder, 'data'),
    password: (await readFile(join(folder, 'password'), 'utf8')).trim(),
  })
}

const makeCluster = async (
  place: Place,
  made: string,
  folder: string,
): Promise<Result<void, 'database-not-made'>> => {
  const { runner, binaries, state } = place
  const password = randomBytes(24).toString('base64url')
  const forInitdb = join(made, 'for-initdb')
  await mkdir(made, { mode: 0o700 })
  await writeFile(forInitdb, password, { mode: 0o600 })
  if (runner.uid !== undefined) {
    for (const path of [made, forInitdb]) await chown(path, runner.uid, runner.gid ?? runner.uid)
  }
  const settings = [
    '--encoding=UTF8',
    '--locale=C',
    '--auth=scram-sha-256',
    `--username=${OWNER}`,
    '--no-instructions',
  ]
  const given = [`--pgdata=${join(made, 'data')}`, `--pwfile=${forInitdb}`, ...settings]
  const { code, out } = await runAs(runner, join(binaries.native, 'bin', 'initdb'), given, state)
  if (code !== 0) {
    await rm(made, { recursive: true, force: true })
    return fail('database-not-made', state, { said: out.slice(-1000) })
  }
  await rm(forInitdb)
  // Written by us, for us: where we are root, PostgreSQL's user has no use for it.
  await writeFile(join(made, 'password'), `${password}\n`, { mode: 0o600, flush: true })
  await rename(made, folder).catch(async (cause: NodeJS.ErrnoException) => {
    await rm(made, { recursive: true, force: true })
    if (cause.code !== 'ENOTEMPTY' && cause.code !== 'EEXIST') throw cause
  })
  return ok(undefined)
}

/** What a process left that was killed as it made a cluster. */
const sweep = async (state: string): Promise<void> => {
  for (const name of await readdir(state)) {
    const pid = /^cluster\.new-(\d+)-/.exec(name)?.[1]
    if (pid && !isAlive(Number(pid))) await rm(join(state, name), { recursive: true, force: true })
  }
}

const exists = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  )
