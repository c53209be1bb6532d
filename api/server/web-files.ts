import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import type { Context, Handler, Hono, MiddlewareHandler } from 'hono'

/**
 * The phone app's files, and its one page for every other path. What Vite names by its contents never changes; the page
 * and the service worker are asked for anew each time.
 */
export const serveWeb = (app: Hono, root: string, demo = false): void => {
  const page = path.join(root, 'index.html')
  if (!existsSync(page)) throw new Error(`no app in ${root}: run npm run build`)
  const marked = demo ? markedPage(page) : undefined
  if (marked) app.get('/', marked).get('/index.html', marked)
  app.get('*', fileIn({ root }))
  app.get('*', marked ?? fileIn({ root, path: 'index.html' }))
}

/** A file, with how long it may be kept. The library tells which file it found only once its answer is made. */
const fileIn = (place: { readonly root: string; readonly path?: string }): MiddlewareHandler => {
  const found = new WeakMap<Context, string>()
  const serve = serveStatic({ ...place, onFound: (file, c) => void found.set(c, file) })
  return async (c, next) => {
    const answer = await serve(c, next)
    const file = found.get(c)
    if (!(answer instanceof Response) || file === undefined) return answer
    const isNamed = file.includes(`${path.sep}assets${path.sep}`)
    answer.headers.set('cache-control', isNamed ? 'public, max-age=31536000, immutable' : 'no-cache')
    return answer
  }
}

/**
 * A demonstration's page says so of itself: also to somebody whom no log knows yet, and out of a phone's cache, which keeps
 * the page as it came.
 */
const markedPage = (page: string): Handler => {
  const html = readFileSync(page, 'utf8').replace('<html ', '<html data-demo ')
  return (c) => c.html(html, 200, { 'cache-control': 'no-cache' })
}
