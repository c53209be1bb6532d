import { type ChildProcess, fork } from 'node:child_process'
import { createRequire } from 'node:module'
import { fileURLToPath, pathToFileURL } from 'node:url'

/** A child program of this folder, with none of this machine's settings: no locale, no zone, no SOURCE_DATE_EPOCH, no NODE_OPTIONS. */
export const startChild = (name: 'child.ts' | 'print-child.ts'): ChildProcess => {
  const tsx = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href
  return fork(fileURLToPath(new URL(name, import.meta.url)), [], {
    execArgv: ['--import', tsx, '--max-old-space-size=512'],
    env: { PATH: process.env.PATH, TZ: 'UTC', LANG: 'C', MALLOC_ARENA_MAX: '2' },
    serialization: 'advanced',
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  })
}
