import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { safeHeaders } from '../../api/server/middleware/headers.ts'
import { serveWeb } from '../../api/server/web-files.ts'

let root: string
beforeAll(() => {
  root = mkdtempSync(path.join(tmpdir(), 'screedbook-web-'))
  mkdirSync(path.join(root, 'assets'))
  writeFileSync(path.join(root, 'index.html'), '<html lang="en">the app</html>')
  writeFileSync(path.join(root, 'sw.js'), 'self.x = 1')
  writeFileSync(path.join(root, 'assets', 'app-1a2b.js'), 'x = 1')
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

describe('[shell] what never changes may be kept, and all else is asked for anew', () => {
  const KEPT: readonly [string, string][] = [
    ['/assets/app-1a2b.js', 'public, max-age=31536000, immutable'],
    ['/assets/gone.js', 'no-cache'],
    ['/sw.js', 'no-cache'],
    ['/', 'no-cache'],
    ['/jobs/7', 'no-cache'],
  ]
  for (const demo of [false, true])
    for (const [url, kept] of KEPT)
      test(`[shell] ${url}${demo ? ', in a demonstration' : ''}`, async () => {
        const app = new Hono()
        app.use(safeHeaders)
        serveWeb(app, root, demo)
        const answer = await app.request(url)
        await answer.text()
        expect(answer.status).toBe(200)
        expect(answer.headers.get('cache-control')).toBe(kept)
        expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
      })
})
