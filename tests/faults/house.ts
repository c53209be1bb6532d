import type { Target } from '../../db/connect/target.ts'
import { newDataFolder, type RunningServer, startServerProcess } from '../kit/server.ts'
import { type KillReport, killRun, postmasterOf } from './kill-run.ts'

/** One server on its embedded database; both are killed. */
export const killOneHouse = async (kills: number, seed: number): Promise<KillReport> => {
  const { folder, remove } = await newDataFolder()
  const first = await startServerProcess({ dataFolder: folder })
  const port = Number(new URL(first.url).port)
  const servers = [first]
  try {
    return await killRun(
      {
        servers,
        postmaster: () => postmasterOf(folder),
        restart: () => startServerProcess({ dataFolder: folder, port }),
      },
      kills,
      seed,
    )
  } finally {
    await endAll(servers)
    await remove()
  }
}

/** Two servers on one database that a third process holds; the servers are killed in turn. */
export const killTwoServers = async (
  kills: number,
  seed: number,
  databaseUrl: string,
): Promise<KillReport> => {
  const { folder, remove } = await newDataFolder()
  const env = { DATABASE_URL: databaseUrl }
  const start = (port?: number) =>
    startServerProcess({ dataFolder: folder, env, ...(port === undefined ? {} : { port }) })
  const first = await start()
  const second = await start()
  const servers: RunningServer[] = [first, second]
  const ports = servers.map((server) => Number(new URL(server.url).port))
  try {
    const victims = {
      servers,
      postmaster: async () => undefined,
      restart: (index: number) => start(ports[index]),
    }
    return await killRun(victims, kills, seed)
  } finally {
    await endAll(servers)
    await remove()
  }
}

const endAll = async (servers: readonly RunningServer[]): Promise<void> => {
  for (const server of servers) await server.stop()
}

/** A database behind a socket, as an address that a server process can be given. */
export const urlOf = ({ user, password, folder, port, database }: Target & { at: 'socket' }): string =>
  `postgres://${user}:${encodeURIComponent(password)}@/${database}?host=${encodeURIComponent(folder)}&port=${port}`
