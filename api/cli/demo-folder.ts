import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises'
import path from 'node:path'

const MARK = 'DEMO.txt'
const OURS = 'A demonstration of Screedbook goes here.'
const BUILDING = 'A demonstration of Screedbook is being built here.'
const BUILT = 'A demonstration of Screedbook: all in it is invented.'

/**
 * What a folder is to the demonstration: new, its own, its own but left half built by a start that was broken off, or
 * somebody else's, which it never touches.
 */
export type DemoFolder = 'new' | 'built' | 'half-built' | 'not-ours'

export const lookAtDemoFolder = async (folder: string): Promise<DemoFolder> => {
  const mark = await readFile(path.join(folder, MARK), 'utf8').catch(() => undefined)
  if (mark?.startsWith(OURS)) return 'new'
  if (mark !== undefined) return mark.startsWith(BUILT) ? 'built' : 'half-built'
  const inside = await readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return []
    throw error
  })
  return inside.length === 0 ? 'new' : 'not-ours'
}

/** Before anything else is put there. */
export const markOurs = async (folder: string): Promise<void> => {
  // Another user may run the folder's PostgreSQL, and must be able to pass through.
  await mkdir(folder, { recursive: true, mode: 0o711 })
  await writeFile(path.join(folder, MARK), `${OURS}\n`)
}

export const markBuilding = (folder: string): Promise<void> =>
  writeFile(path.join(folder, MARK), `${BUILDING}\n`)

export const markBuilt = async (folder: string): Promise<void> =>
  writeFile(
    path.join(folder, MARK),
    `${BUILT}\nTo build it anew, remove ${(await whatToRemove(folder)).join(' and ')}.\n`,
  )

/** All that has to be removed before it can be built anew: the folder, and its database where that lies elsewhere. */
export const whatToRemove = async (folder: string): Promise<string[]> => {
  const where = await readFile(path.join(folder, 'WHERE.txt'), 'utf8').catch(() => '')
  return [folder, ...where.split('\n').filter((line) => line.startsWith('/'))]
}
