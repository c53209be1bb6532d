import type { Serving } from '../server/main.ts'
import type { Io } from './main.ts'

/** Where to listen, from PORT and HOST; undefined where PORT is no port, which is then said. */
export const addressFromEnvironment = (
  port: number,
  io: Io,
): { readonly port: number; readonly host: string } | undefined => {
  const asked = Number(process.env.PORT || port)
  if (Number.isInteger(asked) && asked >= 0 && asked <= 65_535)
    return { port: asked, host: process.env.HOST ?? '127.0.0.1' }
  io.err(`PORT is ${process.env.PORT}, which is no port: give a number from 0 to 65535.`)
  return undefined
}

/** Serves until it is told to stop (SIGINT, SIGTERM), then finishes what is under way. */
export const serveUntilTold = async (serving: Pick<Serving, 'close'>): Promise<void> => {
  await new Promise<void>((resolve) => {
    process.once('SIGINT', resolve)
    process.once('SIGTERM', resolve)
  })
  // A second request to stop is somebody in a hurry; the database takes care of itself.
  process.once('SIGINT', () => process.exit(1))
  await serving.close()
}
