import { type ChildProcess, spawn } from 'node:child_process'
import { open, readFile, readlink, realpath, rename, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { Place } from './place.ts'
import { ids, plainEnvironment, runAs } from './runner.ts'

/** What `postmaster.pid` says of a server: it may have died since, and its number be another program's by now. */
export type Postmaster = {
  readonly pid: number
  readonly port: number
  readonly socketFolder: string
  readonly ready: boolean
}

export const PORT = 5432

/** The file's lines: pid, data, start, port, socket folder, address, shared memory, status. */
export const readPostmaster = async (data: string): Promise<Postmaster | undefined> => {
  const lines = (await readFile(join(data, 'postmaster.pid'), 'utf8').catch(() => '')).split('\n')
  const pid = Number(lines[0])
  if (!Number.isSafeInteger(pid) || pid <= 1) return undefined
  return { pid, port: Number(lines[3]), socketFolder: lines[4] ?? '', ready: lines[7]?.trim() === 'ready' }
}

export const isAlive = (pid: number): boolean => {
  try {
    process.kill(pid, 0)
    return true
  } catch (cause) {
    return (cause as NodeJS.ErrnoException).code === 'EPERM'
  }
}

/**
 * Whether the program under that number is PostgreSQL on that data. After a restart of the machine or its container
 * the number is soon somebody else's, and PostgreSQL would refuse to start for it. A server works in its data folder,
 * and stays there when the folder is renamed.
 */
export const isPostmasterOf = async (pid: number, data: string): Promise<boolean> => {
  if (!isAlive(pid)) return false
  if (process.platform !== 'linux')
    return (await runAs(US, 'ps', ['-p', String(pid), '-o', 'comm='])).out.includes('postgres')
  const folder = await readlink(`/proc/${pid}/cwd`).catch(() => undefined)
  return folder !== undefined && folder === (await realpath(data).catch(() => data))
}

const US = { name: 'this user' }

/** Takes away the leavings of a server that is gone. */
export const clearStale = async (data: string, socketFolder: string): Promise<void> => {
  await rm(join(data, 'postmaster.pid'), { force: true })
  if (!socketFolder) return
  await rm(join(socketFolder, `.s.PGSQL.${PORT}.lock`), { force: true })
  await rm(join(socketFolder, `.s.PGSQL.${PORT}`), { force: true })
}

/**
 * Starts the server, in a session of its own: Ctrl-C in our terminal must reach it through us. Settings are given here
 * and not in its file, so that durability doesn't hang on a file that somebody edits.
 */
export const startPostmaster = async (
  place: Place,
  data: string,
  socketFolder: string,
): Promise<ChildProcess> => {
  const settings = {
    listen_addresses: '',
    port: String(PORT),
    unix_socket_directories: `"${socketFolder.replaceAll('"', '""')}"`,
    unix_socket_permissions: '0700',
    fsync: 'on',
    synchronous_commit: 'on',
    full_page_writes: 'on',
    timezone: 'UTC',
    log_timezone: 'UTC',
    jit: 'off',
  }
  const given = Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])
  const log = await openLog(logOf(place))
  try {
    const child = spawn(join(place.binaries.native, 'bin', 'postgres'), ['-D', data, ...given], {
      ...ids(place.runner),
      cwd: place.state,
      env: plainEnvironment(),
      detached: true,
      stdio: ['ignore', log.fd, log.fd],
    })
    child.on('error', () => {})
    child.unref()
    return child
  } finally {
    await log.close()
  }
}

/** Ends it, with sessions cut off and all written down ("fast"); false where it isn't gone within a minute. */
export const stopPostmaster = async (pid: number, data: string): Promise<boolean> => {
  if (!(await isPostmasterOf(pid, data))) return true
  process.kill(pid, 'SIGINT')
  return waitFor(async () => !(await isPostmasterOf(pid, data)), 60_000)
}

export const waitFor = async (there: () => Promise<boolean>, milliseconds: number): Promise<boolean> => {
  for (const end = performance.now() + milliseconds; performance.now() < end; ) {
    if (await there()) return true
    await new Promise((resolve) => setTimeout(resolve, 25))
  }
  return there()
}

/** The last lines that the server wrote. */
export const tailOfLog = async (place: Place): Promise<string> =>
  (await readFile(logOf(place), 'utf8').catch(() => '')).slice(-1000)

const logOf = (place: Place): string => join(place.state, 'postgres.log')

const openLog = async (path: string) => {
  const size = await stat(path).then(
    (it) => it.size,
    () => 0,
  )
  if (size > 10 * 1024 * 1024) await rename(path, `${path}.old`)
  return open(path, 'a', 0o600)
}
