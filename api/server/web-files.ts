import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import type { Handler, Hono } from 'hono'

/**
 * The phone app's files, and its one page for every other path. What Vite names by its contents never changes; the page
 * and the service worker are asked for anew each time.
 */
export const serveWeb = (app: Hono, root: string, demo = false): void => {
  const page = path.join(root, 'index.html')
  if (!existsSync(page)) throw new Error(`no app in ${root}: run npm run build`)
  const onFound = (file: string, c: { header: (name: string, value: string) => void }) =>
    c.header(
      'cache-control',
      file.includes(`${path.sep}assets${path.sep}`) ? 'public, max-age=31536000, immutable' : 'no-cache',
    )
  const marked = demo ? markedPage(page) : undefined
  if (marked) app.get('/', marked).get('/index.html', marked)
  app.get('*', serveStatic({ root, onFound }))
  app.get('*', marked ?? serveStatic({ root, path: 'index.html', onFound }))
}

/**
 * A demonstration's page says so of itself: also to somebody whom no log knows yet, and out of a phone's cache, which keeps
 * the page as it came.
 */
const markedPage = (page: string): Handler => {
  const html = readFileSync(page, 'utf8').replace('<html ', '<html data-demo ')
  return (c) => c.html(html, 200, { 'cache-control': 'no-cache' })
}
