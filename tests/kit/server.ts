import { type ChildProcess, spawn } from 'node:child_process'
import { chmod, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** The real program in a process of its own, on a data folder of its own. */
export type RunningServer = {
  readonly url: string
  readonly setUpLink: string | undefined
  readonly dataFolder: string
  readonly process: ChildProcess
  /** All that it has printed so far. */
  readonly printed: () => string
  /** SIGTERM, and waits until it has ended. */
  stop(): Promise<void>
  /** SIGKILL: nothing gets to tidy up. */
  kill(): Promise<void>
}

/** A fresh folder for one server's data; `remove` takes it away again. */
export const newDataFolder = async (): Promise<{ folder: string; remove: () => Promise<void> }> => {
  const folder = await mkdtemp(path.join(tmpdir(), 'screedbook-test-'))
  // As root another user runs PostgreSQL, and must be able to pass through.
  await chmod(folder, 0o711)
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) }
}

/** Starts `screedbook serve` (or `demo`), and returns once it says where it is. Rejects with what it printed where it ends first. */
export const startServerProcess = (options: {
  readonly dataFolder: string
  readonly port?: number
  readonly env?: Readonly<Record<string, string>>
  readonly command?: 'serve' | 'demo'
}): Promise<RunningServer> =>
  new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      [path.join(ROOT, 'api/cli/screedbook.js'), options.command ?? 'serve'],
      {
        cwd: ROOT,
        env: { ...process.env, DATA: options.dataFolder, PORT: String(options.port ?? 0), ...options.env },
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    )
    let printed = ''
    const ended = new Promise<void>((done) => child.once('exit', () => done()))
    const end = async (signal: NodeJS.Signals) => {
      if (child.exitCode === null && child.signalCode === null) child.kill(signal)
      await ended
    }
    const look = (text: string) => {
      printed += text
      const url = /Screedbook is at (\S+)/.exec(printed)?.[1]
      if (!url) return
      // The set-up link follows in the same breath; give it the rest of this turn.
      setTimeout(() => {
        resolve({
          url,
          setUpLink: /^ {2}(http\S+\/set-up#\S+)$/m.exec(printed)?.[1],
          dataFolder: options.dataFolder,
          process: child,
          printed: () => printed,
          stop: () => end('SIGTERM'),
          kill: () => end('SIGKILL'),
        })
      }, 50)
    }
    child.stdout.setEncoding('utf8').on('data', look)
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      printed += text
    })
    child.once('exit', (code) =>
      reject(new Error(`the server ended (${code}) before it served:\n${printed}`)),
    )
  })
