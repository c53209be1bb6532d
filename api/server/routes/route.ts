import type { Context, Hono } from 'hono'
import { ENDPOINTS, type EndpointName, mayUse } from '../../contract/endpoints.ts'
import type { Live } from '../live/live.ts'
import type { Sequencer } from '../log/sequencer.ts'
import { problem } from '../middleware/problem.ts'
import { type Asker, type Known, whoAsks } from '../middleware/session.ts'
import type { ServerWorld } from '../world.ts'

/** What a route may use. */
export type House = { readonly world: ServerWorld; readonly sequencer: Sequencer; readonly live: Live }
export type Handler<A extends Asker = Asker> = (
  c: Context,
  house: House,
  asker: A,
) => Promise<Response> | Response

/**
 * Adds a route by its name in the table of endpoints: path, method and who may come from there and nowhere else. Who may
 * not is told nothing of what is there.
 */
export const addRoute = (app: Hono, house: House, name: EndpointName, handler: Handler): void => {
  const endpoint = ENDPOINTS[name]
  app.on(endpoint.method, endpoint.path, async (c) => {
    const asker = await whoAsks(c, house.world, house.sequencer)
    if (mayUse(endpoint, asker.standing)) return handler(c, house, asker)
    return problem(c, asker.standing === 'nobody' ? 'not-signed-in' : 'not-allowed')
  })
}

/** A route for those whom the server knows; the table of endpoints keeps everybody else out before. */
export const known =
  (handler: Handler<Known>): Handler =>
  (c, house, asker) =>
    asker.standing === 'nobody' ? problem(c, 'not-signed-in') : handler(c, house, asker)
