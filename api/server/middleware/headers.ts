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

/** What a browser must not do with our pages, and that answers below /api are nobody's to keep. */
export const safeHeaders: MiddlewareHandler = async function safeHeaders(c, next) {
  await next()
  c.header('content-security-policy', POLICY)
  c.header('x-content-type-options', 'nosniff')
  c.header('referrer-policy', 'no-referrer')
  c.header('cross-origin-opener-policy', 'same-origin')
  if (c.req.path.startsWith('/api/') && !c.res.headers.has('cache-control'))
    c.header('cache-control', 'no-store')
}
