import type { MiddlewareHandler } from 'hono'
import { problem } from './problem.ts'

/**
 * A browser that another site tells to change something here says so; its request is refused. Programs that send neither
 * header are no browser, and carry no one's cookies by accident.
 */
export const sameSite: MiddlewareHandler = async function sameSite(c, next) {
  const safe = c.req.method === 'GET' || c.req.method === 'HEAD'
  const site = c.req.header('sec-fetch-site')
  const origin = c.req.header('origin')
  const foreignSite = site !== undefined && site !== 'same-origin' && site !== 'none'
  const foreignOrigin = site === undefined && origin !== undefined && hostOf(origin) !== c.req.header('host')
  if (!safe && (foreignSite || foreignOrigin)) return problem(c, 'cross-site')
  await next()
}

const hostOf = (origin: string): string => {
  try {
    return new URL(origin).host
  } catch {
    return ''
  }
}
