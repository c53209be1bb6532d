import { MADE_ORDER, type MadeStore } from './made-store.ts'

/** The twin of `made-files`. */
export const createMadeMemory = (): MadeStore => {
  const made = new Map<string, Uint8Array>()
  const keyOf = (company: string, photo: string, name: string) => `${company}/${photo}.${name}`
  return {
    get: async (company, photo, name) => made.get(keyOf(company, photo, name))?.slice(),
    put: async (company, photo, files) => {
      for (const name of MADE_ORDER) {
        const bytes = files.get(name)
        if (bytes) made.set(keyOf(company, photo, name), new Uint8Array(bytes))
      }
    },
    drop: async () => made.clear(),
  }
}
