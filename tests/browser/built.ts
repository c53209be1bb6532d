import { execFileSync } from 'node:child_process'
import { readdirSync, statSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const SOURCES = ['web', 'api/domain', 'api/contract']

/** Builds the app where its sources are newer than what was built: a test must never try an older one. */
export const buildWeb = (): void => {
  const built = timeOf(path.join(ROOT, 'web/dist/index.html'))
  const newest = Math.max(...SOURCES.flatMap((folder) => filesIn(path.join(ROOT, folder)).map(timeOf)))
  // In a process of its own: under a test's NODE_ENV it would be a development build, without a service worker.
  if (newest > built)
    execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', 'web', '--logLevel', 'warn'], {
      cwd: ROOT,
      env: { ...process.env, NODE_ENV: 'production' },
      stdio: 'inherit',
    })
}

const timeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.parentPath.includes(`${path.sep}dist`))
    .map((entry) => path.join(entry.parentPath, entry.name))
