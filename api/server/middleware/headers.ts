import type { MiddlewareHandler } from 'hono'

const POLICY = [
  "default-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "style-src 'self' 'unsafe-inline'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

const HEADERS = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
}

/**
 * What a browser must not do with our pages, and that answers below /api are nobody's to keep unless a route says
 * otherwise. Set before the answer is made: set afterwards, each answer would be made a second time.
 */
export const safeHeaders: MiddlewareHandler = async function safeHeaders(c, next) {
  for (const [name, value] of Object.entries(HEADERS)) c.header(name, value)
  if (c.req.path.startsWith('/api/')) c.header('cache-control', 'no-store')
  await next()
}
