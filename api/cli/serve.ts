import { startServer } from '../server/main.ts'
import { placeFromEnvironment } from '../server/open.ts'
import type { Io } from './main.ts'
import { addressFromEnvironment, serveUntilTold } from './serving.ts'
import { whatStandsInTheWay } from './stands-in-the-way.ts'

const PORT = 7373

/** Serves until it is told to stop (SIGINT, SIGTERM), then finishes what is under way. */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  if (args.length > 0) {
    io.err('screedbook serve takes no arguments: PORT, HOST, DATA and DATABASE_URL say where.')
    return 2
  }
  const address = addressFromEnvironment(PORT, io)
  if (!address) return 2
  const serving = await startServer({ ...placeFromEnvironment(io.err), ...address })
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
  await serveUntilTold(serving.value)
  return 0
}
