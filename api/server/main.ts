import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { type ServerType, serve } from '@hono/node-server'
import { uuidV7 } from '../domain/entry/make.ts'
import { fail, ok, type Result } from '../domain/result.ts'
import { createApp } from './app.ts'
import { type OpenFailure, type OpenHouse, openHouse, type Place } from './open.ts'
import { createPhotoViews } from './photo/views/create-photo-views.ts'
import { recordMaker } from './record/maker.ts'
import { makeSetUpCode } from './routes/enrol.ts'
import { random, sha256, verifySignature } from './senses.ts'
import { type AuthorityProblem, authorityFromEnvironment, startStamper } from './stamp/start-stamper.ts'
import { serveWeb } from './web-files.ts'
import type { ServerWorld } from './world.ts'

export const WEB_ROOT = fileURLToPath(new URL('../../web/dist', import.meta.url))

/** The program's version, as records and answers name it. */
export const RELEASE: string = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
).version

export type Serving = {
  readonly url: string
  /** The one-time link that makes the company, where there is none yet. */
  readonly setUpLink: string | undefined
  /** The house that is served. */
  readonly world: ServerWorld
  close(): Promise<void>
}

export type ServeOptions = Place & {
  readonly port: number
  readonly host: string
  readonly webRoot?: string
  /** A demonstration: logs that are founded here say so in their origins, and the pages say so too. */
  readonly demo?: boolean
  /** Runs once the house is open and held, before anybody is served. */
  readonly prepare?: (world: ServerWorld) => Promise<void>
}

/** The server's world on this machine: its clocks, its chance, and what was opened. */
export const worldOf = (house: OpenHouse, demo = false): ServerWorld => ({
  now: () => Date.now(),
  mono: () => performance.now(),
  random,
  sha256,
  verify: verifySignature,
  store: house.stores.log,
  accounts: house.stores.accounts,
  views: house.stores.views,
  photos: house.photos,
  photoViews: createPhotoViews({ photos: house.photos, made: house.made }),
  keysOf: house.keysOf,
  boot: uuidV7(Date.now(), random),
  release: RELEASE,
  demo,
  record: recordMaker(house, RELEASE),
  report: (error) => console.error(error),
})

const SWEEP_MS = 3600 * 1000
const LOCAL = new Set(['127.0.0.1', '0.0.0.0', 'localhost', '::', '::1'])

/** Opens everything and serves it. With the embedded database, one process a folder. Fails as `openHouse` does. */
export const startServer = async (
  options: ServeOptions,
): Promise<
  Result<Serving, OpenFailure | AuthorityProblem | 'folder-in-use' | 'port-in-use' | 'address-unusable'>
> => {
  const authority = await authorityFromEnvironment()
  if (!authority.ok) return authority
  const opened = await openHouse(options)
  if (!opened.ok) return opened
  const house = opened.value
  const held = await house.hold()
  if (!held.ok) {
    await house.close()
    return held
  }
  const world = worldOf(house, options.demo)
  try {
    await options.prepare?.(world)
  } catch (error) {
    await world.photoViews.close()
    await house.close()
    throw error
  }
  const { app, close } = await createApp(world)
  serveWeb(app, options.webRoot ?? WEB_ROOT, options.demo)
  const server = await listen(app.fetch, options)
  if (!server.ok) {
    await close()
    await house.close()
    return server
  }
  const stamper = authority.value && startStamper(world, authority.value)
  const sweep = setInterval(() => void world.accounts.sweep(world.now()).catch(() => {}), SWEEP_MS)
  const { port } = server.value.address() as { port: number }
  // Browsers hold localhost for safe without TLS: keys and offline work need that.
  const url = `http://${LOCAL.has(options.host) ? 'localhost' : options.host}:${port}`
  const code = await makeSetUpCode(world)
  return ok({
    url,
    world,
    setUpLink: code && `${url}/set-up#${code}`,
    close: async () => {
      clearInterval(sweep)
      await new Promise<void>((resolve) => {
        server.value.close(() => resolve())
        // Live listeners never end by themselves.
        if ('closeAllConnections' in server.value) server.value.closeAllConnections()
      })
      await stamper?.close()
      await close()
      await world.photoViews.close()
      await house.close()
    },
  })
}

type Fetch = Parameters<typeof serve>[0]['fetch']

const listen = (
  fetch: Fetch,
  { port, host }: { port: number; host: string },
): Promise<Result<ServerType, 'port-in-use' | 'address-unusable'>> =>
  new Promise((resolve, reject) => {
    const server = serve({ fetch, port, hostname: host }, () => resolve(ok(server)))
    server.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(fail('port-in-use', String(port)))
      else if (error.syscall === 'listen' || error.syscall === 'getaddrinfo')
        resolve(fail('address-unusable', `${host}:${port}`, { code: error.code ?? 'unknown' }))
      else reject(error)
    })
  })
