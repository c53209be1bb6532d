import { startServer } from '../server/main.ts'
import { placeFromEnvironment } from '../server/open.ts'
import type { Io } from './main.ts'
import { whatStandsInTheWay } from './stands-in-the-way.ts'

const PORT = 7373

/** Serves until it is told to stop (SIGINT, SIGTERM), then finishes what is under way. */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  if (args.length > 0) {
    io.err('screedbook serve takes no arguments: PORT, HOST, DATA and DATABASE_URL say where.')
    return 2
  }
  const port = Number(process.env.PORT || PORT)
  const host = process.env.HOST ?? '127.0.0.1'
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    io.err(`PORT is ${process.env.PORT}, which is no port: give a number from 0 to 65535.`)
    return 2
  }
  const serving = await startServer({ ...placeFromEnvironment(io.err), port, host })
  if (!serving.ok) {
    io.err(whatStandsInTheWay(serving.problem))
    return 1
  }
  io.out(`Screedbook is at ${serving.value.url}`)
  if (serving.value.setUpLink) {
    io.out(
      'No company is set up here yet. Open this link once, on the first phone or computer (good for 24 hours):',
    )
    io.out(`  ${serving.value.setUpLink}`)
  }
  await new Promise<void>((resolve) => {
    process.once('SIGINT', resolve)
    process.once('SIGTERM', resolve)
  })
  // A second request to stop is somebody in a hurry; the database takes care of itself.
  process.once('SIGINT', () => process.exit(1))
  await serving.value.close()
  return 0
}
