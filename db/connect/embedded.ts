import { rm } from 'node:fs/promises'
import { basename } from 'node:path'
import { fail, ok, type Result } from '../../api/domain/result.ts'
import { type Cluster, OWNER, openCluster } from './cluster.ts'
import { findPlace, findSocketFolder, type Place, type PlaceFailure } from './place.ts'
import {
  clearStale,
  isPostmasterOf,
  type Postmaster,
  readPostmaster,
  startPostmaster,
  stopPostmaster,
  tailOfLog,
  waitFor,
} from './postmaster.ts'
import type { Target } from './target.ts'
import { type Tether, tie } from './tether.ts'

/** A data folder's own PostgreSQL, running. */
export type Embedded = {
  readonly target: Target
  /** True where the server was running already: for another process, or left behind by one that crashed. */
  readonly adopted: boolean
  /** Stops the server, unless another process uses it too; that one stops it then. */
  stop(): Promise<void>
}

export type EmbeddedFailure = PlaceFailure | 'database-not-made' | 'database-not-started'

const TRIES = 3

/**
 * Starts PostgreSQL on a data folder, or joins the one that runs there. It listens on a socket only. Several processes
 * may do so at once. `log` gets a plain line where the database has to be kept elsewhere.
 */
export const openEmbedded = async (
  dataFolder: string,
  { log }: { readonly log: (line: string) => void },
): Promise<Result<Embedded, EmbeddedFailure>> => {
  const place = await findPlace(dataFolder, log)
  if (!place.ok) return place
  const cluster = await openCluster(place.value)
  if (!cluster.ok) return cluster
  // More than once: a server may be going down as we look, or another process be first to start one.
  for (let i = 0; i < TRIES; i++) {
    const running = await joinOrStart(place.value, cluster.value)
    if (running) return ok(running)
  }
  return fail('database-not-started', place.value.state, { said: await tailOfLog(place.value) })
}

/** Undefined where it should be tried again. */
const joinOrStart = async (place: Place, cluster: Cluster): Promise<Embedded | undefined> => {
  const there = await settled(cluster.data)
  const server = there ?? (await start(place, cluster.data))
  if (!server) return undefined
  const target: Target = {
    at: 'socket',
    folder: server.socketFolder,
    port: server.port,
    user: OWNER,
    password: cluster.password,
    database: 'screedbook',
  }
  const tether = await tie(target)
  if (!tether) {
    // It is going down, or is no server of ours.
    await waitFor(async () => !(await isPostmasterOf(server.pid, cluster.data)), 5_000)
    return undefined
  }
  const watch = keepUp(place, cluster.data, server)
  return {
    target,
    adopted: there !== undefined,
    stop: async () => stop(tether, await watch.end(), cluster.data),
  }
}

const WATCH_MS = 500

/**
 * Starts the server again, on the same socket, where it has ended by itself (killed, or out of memory): connections find
 * their way back, and a log that waits for somebody to notice is no log. Of two processes that see it, one starts it.
 */
const keepUp = (place: Place, data: string, first: Postmaster) => {
  let server = first
  let looking: Promise<void> | undefined
  const look = async (): Promise<void> => {
    if (await isPostmasterOf(server.pid, data)) return
    // A start fails while the dead server's children still hold its memory: the next look tries again.
    const again = (await settled(data)) ?? (await start(place, data, server.socketFolder))
    if (again) server = again
  }
  const timer = setInterval(() => {
    looking ??= look()
      .catch(() => {})
      .finally(() => {
        looking = undefined
      })
  }, WATCH_MS)
  timer.unref()
  return {
    end: async (): Promise<Postmaster> => {
      clearInterval(timer)
      await looking
      return server
    },
  }
}

/** The server that runs, once it answers or is gone; recovery after a crash may take minutes. */
const settled = async (data: string): Promise<Postmaster | undefined> => {
  const first = await readPostmaster(data)
  if (!first) return undefined
  await waitFor(async () => {
    const now = await readPostmaster(data)
    return !now || now.ready || !(await isPostmasterOf(now.pid, data))
  }, 600_000)
  const now = await readPostmaster(data)
  if (now && (await isPostmasterOf(now.pid, data))) return now
  await clearStale(data, (now ?? first).socketFolder)
  return undefined
}

const start = async (place: Place, data: string, socket?: string): Promise<Postmaster | undefined> => {
  const socketFolder = socket ?? (await findSocketFolder(place))
  const child = await startPostmaster(place, data, socketFolder)
  let gone = false
  child.once('exit', () => {
    gone = true
  })
  child.once('error', () => {
    gone = true
  })
  await waitFor(async () => gone || (await isReady(child.pid, data)), 600_000)
  const server = await readPostmaster(data)
  return !gone && server?.pid === child.pid ? server : undefined
}

const isReady = async (pid: number | undefined, data: string): Promise<boolean> => {
  const server = await readPostmaster(data)
  return server !== undefined && server.pid === pid && server.ready
}

const stop = async (tether: Tether, server: Postmaster, data: string): Promise<void> => {
  const last = await tether.isLast()
  // The tether's own session goes down with the server: waiting for it first would let another process join.
  if (
    last &&
    (await stopPostmaster(server.pid, data)) &&
    basename(server.socketFolder).startsWith('screedbook-')
  ) {
    await rm(server.socketFolder, { recursive: true, force: true })
  }
  await tether.end()
}
