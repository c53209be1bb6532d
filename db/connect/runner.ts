import { spawn } from 'node:child_process'

/**
 * As whom PostgreSQL's programs run: it refuses root. Undefined ids mean "as we do".
 */
export type Runner = { readonly name: string; readonly uid?: number; readonly gid?: number }

export type Ran = { readonly code: number; readonly out: string }

/** No PG… variables: they would point our server at somebody else's. */
export const plainEnvironment = (): NodeJS.ProcessEnv => ({ PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' })

/** Runs a program to its end. Never throws: a program that can't be started gives code 127. */
export const runAs = (runner: Runner, program: string, given: readonly string[], cwd = '/'): Promise<Ran> =>
  new Promise((resolve) => {
    const child = spawn(program, given, {
      ...ids(runner),
      cwd,
      env: plainEnvironment(),
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    let out = ''
    child.stdout.on('data', (text) => {
      out += text
    })
    child.stderr.on('data', (text) => {
      out += text
    })
    child.on('error', (error) => resolve({ code: 127, out: error.message }))
    child.on('close', (code) => resolve({ code: code ?? 128, out }))
  })

export const ids = ({ uid, gid }: Runner): { uid?: number; gid?: number } => ({
  ...(uid === undefined ? {} : { uid }),
  ...(gid === undefined ? {} : { gid }),
})

/** Whether that user can enter the folder. */
export const canEnter = async (runner: Runner, folder: string): Promise<boolean> =>
  (await runAs(runner, '/bin/sh', ['-c', 'cd -- "$1"', 'sh', folder])).code === 0

/** Ourselves, or, where we are root, a system user: `postgres`, `screedbook` (made where possible), `nobody`. */
export const findRunner = async (): Promise<Runner> => {
  if (process.getuid?.() !== 0) return { name: 'this user' }
  const found = (await userNamed('postgres')) ?? (await userNamed('screedbook'))
  if (found) return found
  const made = await runAs({ name: 'root' }, 'useradd', [
    '--system',
    '--no-create-home',
    '--shell',
    '/usr/sbin/nologin',
    'screedbook',
  ])
  const last = (made.code === 0 ? await userNamed('screedbook') : undefined) ?? (await userNamed('nobody'))
  return last ?? { name: 'nobody', uid: 65534, gid: 65534 }
}

const userNamed = async (name: string): Promise<Runner | undefined> => {
  const uid = await runAs({ name: 'root' }, 'id', ['-u', name])
  const gid = await runAs({ name: 'root' }, 'id', ['-g', name])
  if (uid.code !== 0 || gid.code !== 0) return undefined
  return { name, uid: Number(uid.out), gid: Number(gid.out) }
}
