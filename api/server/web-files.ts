import { existsSync } from 'node:fs'
import path from 'node:path'
import { serveStatic } from '@hono/node-server/serve-static'
import type { Hono } from 'hono'

/**
 * The phone app's files, and its one page for every other path. What Vite names by its contents never changes; the page
 * and the service worker are asked for anew each time.
 */
export const serveWeb = (app: Hono, root: string): void => {
  if (!existsSync(path.join(root, 'index.html'))) throw new Error(`no app in ${root}: run npm run build`)
  const onFound = (file: string, c: { header: (name: string, value: string) => void }) =>
    c.header(
      'cache-control',
      file.includes(`${path.sep}assets${path.sep}`) ? 'public, max-age=31536000, immutable' : 'no-cache',
    )
  app.get('*', serveStatic({ root, onFound }))
  app.get('*', serveStatic({ root, path: 'index.html', onFound }))
}
