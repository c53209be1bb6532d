import { mkdir, open, readFile, rename, rm } from 'node:fs/promises'
import path from 'node:path'
import { MADE_ORDER, type MadeName, type MadeStore } from './made-store.ts'

/**
 * `<folder>/v<version>/<company>/<first two digits>/<hash>.<name>`. The view comes last, so that
 * what a power cut leaves unfinished is made again. Names are UUIDs and hashes that were checked before they came here.
 */
export const createMadeFiles = (folder: string, version: number, suffix: () => string): MadeStore => {
  const fileOf = (company: string, photo: string, name: MadeName) =>
    path.join(folder, `v${version}`, company, photo.slice(0, 2), `${photo}.${name}`)
  return {
    get: async (company, photo, name) => {
      try {
        const bytes = await readFile(fileOf(company, photo, name))
        return bytes.length === 0 ? undefined : new Uint8Array(bytes)
      } catch {
        return undefined
      }
    },
    put: async (company, photo, files) => {
      await mkdir(path.dirname(fileOf(company, photo, 'view')), { recursive: true })
      for (const name of MADE_ORDER) {
        const bytes = files.get(name)
        if (!bytes) continue
        const file = fileOf(company, photo, name)
        // Another process may make the same at the same time: each writes its own, and the last name stays.
        const draft = `${file}.${suffix()}`
        const handle = await open(draft, 'w')
        try {
          await handle.writeFile(bytes)
          await handle.sync()
        } finally {
          await handle.close()
        }
        await rename(draft, file)
      }
    },
    drop: () => rm(folder, { recursive: true, force: true }),
  }
}
