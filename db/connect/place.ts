import { createHash } from 'node:crypto'
import { access, chmod, chown, mkdir, mkdtemp, readFile, realpath, stat, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { fail, ok, type Result } from '../../api/domain/result.ts'
import { type Binaries, canRun, copyBinaries, findBinaries } from './binaries.ts'
import { canEnter, findRunner, type Runner } from './runner.ts'

/** Where one data folder's PostgreSQL lives, as whom it runs, and with which programs. */
export type Place = { readonly runner: Runner; readonly binaries: Binaries; readonly state: string }

export type PlaceFailure = 'postgres-missing' | 'postgres-unreachable'

const ELSEWHERE = '/var/lib/screedbook'
const WHERE = 'WHERE.txt'

/**
 * Normally the data folder itself. As root another user runs PostgreSQL, and where that user can't reach the data
 * folder (a clone under a closed home) it lives under /var/lib/screedbook; a file WHERE.txt says so, and is believed
 * from then on, since a second, empty database beside the first would look like a loss of everything.
 */
export const findPlace = async (
  dataFolder: string,
  log: (line: string) => void,
): Promise<Result<Place, PlaceFailure>> => {
  const found = await findBinaries()
  if (!found) return fail('postgres-missing', '', { platform: `${process.platform}-${process.arch}` })
  const runner = await findRunner()
  const folder = await makeFolder(dataFolder, runner)
  const elsewhere = join(ELSEWHERE, nameFor(folder))

  const state = await findState(folder, elsewhere, runner, log)
  if (!state.ok) return state
  const binaries = (await canRun(found, runner)) ? found : await copied(found, folder, elsewhere, runner, log)
  if (!(await canRun(binaries, runner)))
    return fail('postgres-unreachable', binaries.native, { user: runner.name })
  return ok({ runner, binaries, state: state.value })
}

/** The data folder, made where there is none. */
const makeFolder = async (dataFolder: string, runner: Runner): Promise<string> => {
  await mkdir(dataFolder, { recursive: true, mode: 0o711 })
  await letThrough(dataFolder, runner)
  return realpath(dataFolder)
}

/**
 * A data folder of root's that is closed is opened for the group of PostgreSQL's user, to pass through and not to
 * read. The folders above it are not ours to change.
 */
const letThrough = async (folder: string, runner: Runner): Promise<void> => {
  const { uid, mode } = await stat(folder)
  if (runner.gid === undefined || uid !== 0 || (mode & 0o077) !== 0) return
  await chown(folder, 0, runner.gid)
  await chmod(folder, (mode & 0o700) | 0o010)
}

const nameFor = (folder: string): string =>
  `${basename(folder).replace(/[^A-Za-z0-9._-]/g, '_')}-${createHash('sha256').update(folder).digest('hex').slice(0, 12)}`

const findState = async (
  folder: string,
  elsewhere: string,
  runner: Runner,
  log: (line: string) => void,
): Promise<Result<string, PlaceFailure>> => {
  const said = await readWhere(folder)
  const inside = join(folder, 'postgres')
  const state = said ?? inside
  if (await makeState(state, runner)) return ok(state)
  // Something is there that we must not step over.
  if (said || (await exists(join(inside, 'cluster'))))
    return fail('postgres-unreachable', state, { user: runner.name })
  await makeState(elsewhere, runner)
  if (!(await canEnter(runner, elsewhere)))
    return fail('postgres-unreachable', elsewhere, { user: runner.name })
  await writeFile(
    join(folder, WHERE),
    `The database of this folder is kept in\n${elsewhere}\nsince the user ${runner.name}, who runs PostgreSQL, cannot enter this folder.\n`,
  )
  log(`The database is kept in ${elsewhere}, since the user ${runner.name} cannot enter ${folder}.`)
  return ok(elsewhere)
}

const readWhere = async (folder: string): Promise<string | undefined> =>
  (await readFile(join(folder, WHERE), 'utf8').catch(() => ''))
    .split('\n')
    .find((line) => line.startsWith('/'))

/** A folder of that user's alone; false where it can't be made so, or the user can't get there. */
const makeState = async (state: string, runner: Runner): Promise<boolean> => {
  try {
    await mkdir(state, { recursive: true })
    if (runner.uid !== undefined) await chown(state, runner.uid, runner.gid ?? runner.uid)
    await chmod(state, 0o700)
  } catch {
    return false
  }
  return canEnter(runner, state)
}

const copied = async (
  found: Binaries,
  folder: string,
  elsewhere: string,
  runner: Runner,
  log: (line: string) => void,
): Promise<Binaries> => {
  const base = runner.uid === undefined ? join(folder, 'postgres') : elsewhere
  await makeState(base, runner)
  const there = { ...found, native: join(base, `postgresql-${found.version}`) }
  if (await canRun(there, runner)) return there
  const why = runner.uid === undefined ? 'they do not run' : `the user ${runner.name} cannot run them`
  log(`PostgreSQL's programs are copied to ${base}, since ${why} where npm put them.`)
  return copyBinaries(found, base, (made) => canRun(made, runner))
}

/** Sockets have short paths: 107 bytes on Linux, 103 on macOS, with `/.s.PGSQL.5432` at the end. */
export const findSocketFolder = async ({ state, runner }: Place): Promise<string> => {
  const inside = join(state, 'socket')
  if (Buffer.byteLength(inside) + '/.s.PGSQL.5432'.length < 100 && (await makeState(inside, runner)))
    return inside
  const base = (await canEnter(runner, tmpdir())) ? tmpdir() : '/tmp'
  const made = await mkdtemp(join(base, 'screedbook-'))
  await makeState(made, runner)
  return made
}

const exists = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  )
