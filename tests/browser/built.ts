import { readdirSync, statSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const SOURCES = ['web', 'api/domain', 'api/contract']

/** Builds the app where its sources are newer than what was built: a test must never try an older one. */
export const buildWeb = async (): Promise<void> => {
  const built = timeOf(path.join(ROOT, 'web/dist/index.html'))
  const newest = Math.max(...SOURCES.flatMap((folder) => filesIn(path.join(ROOT, folder)).map(timeOf)))
  if (newest > built)
    await build({ root: path.join(ROOT, 'web'), configFile: path.join(ROOT, 'web/vite.config.ts'), logLevel: 'warn' })
}

const timeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0

const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.parentPath.includes(`${path.sep}dist`))
    .map((entry) => path.join(entry.parentPath, entry.name))
