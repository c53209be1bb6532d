import { Hono } from 'hono'
import { createLive } from './live/live.ts'
import { createSequencer } from './log/sequencer.ts'
import { safeHeaders } from './middleware/headers.ts'
import { problem } from './middleware/problem.ts'
import { sameSite } from './middleware/same-site.ts'
import { invite, join, joinLook, setUp, setUpLook } from './routes/enrol.ts'
import { job, jobs } from './routes/jobs.ts'
import { live as liveRoute } from './routes/live.ts'
import { photo, photoFacts, photoLarge, photoPart, photoSmall, photoState } from './routes/photos.ts'
import { pull } from './routes/pull.ts'
import { push } from './routes/push.ts'
import { record } from './routes/record.ts'
import { addRoute, type House } from './routes/route.ts'
import { challenge, session } from './routes/session.ts'
import { setAside } from './routes/set-aside.ts'
import { jobSlip, slip } from './routes/slip.ts'
import type { ServerWorld } from './world.ts'

export type App = { readonly app: Hono; readonly close: () => Promise<void> }

/** The whole API over a world that is passed in. */
export const createApp = async (world: ServerWorld): Promise<App> => {
  const live = await createLive(world.store)
  const house: House = { world, sequencer: createSequencer(world), live }
  const app = new Hono()
  app.use(safeHeaders, sameSite)
  addRoute(app, house, 'setUpState', setUpLook)
  addRoute(app, house, 'setUp', setUp)
  addRoute(app, house, 'joinState', joinLook)
  addRoute(app, house, 'join', join)
  addRoute(app, house, 'challenge', challenge)
  addRoute(app, house, 'session', session)
  addRoute(app, house, 'slip', slip)
  addRoute(app, house, 'push', push)
  addRoute(app, house, 'pull', pull)
  addRoute(app, house, 'live', liveRoute)
  addRoute(app, house, 'invite', invite)
  addRoute(app, house, 'setAside', setAside)
  addRoute(app, house, 'jobs', jobs)
  addRoute(app, house, 'jobSlip', jobSlip)
  addRoute(app, house, 'record', record)
  addRoute(app, house, 'job', job)
  addRoute(app, house, 'photoState', photoState)
  addRoute(app, house, 'photoPart', photoPart)
  addRoute(app, house, 'photo', photo)
  addRoute(app, house, 'photoSmall', photoSmall)
  addRoute(app, house, 'photoLarge', photoLarge)
  addRoute(app, house, 'photoFacts', photoFacts)
  app.all('/api/*', (c) => problem(c, 'not-found'))
  app.onError((error, c) => {
    // A machine that failed, or our bug: the sender keeps what it has and tries again.
    world.report(error)
    return problem(c, 'unavailable')
  })
  return { app, close: live.close }
}
