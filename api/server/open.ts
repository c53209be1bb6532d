import path from 'node:path'
import { type Connected, type ConnectFailure, connect } from '../../db/connect/connect.ts'
import { readEntry } from '../domain/entry/read.ts'
import { toBase64, toHex } from '../domain/log/encoding.ts'
import { fail, ok, type Result } from '../domain/result.ts'
import { type KeysOf, keysFrom } from './keys.ts'
import { type MasterKeyProblem, readMasterKey } from './master-key.ts'
import { createPhotoFiles } from './photo/photo-files.ts'
import type { PhotoStore } from './photo/photo-store.ts'
import { createMadeFiles } from './photo/views/made-files.ts'
import type { MadeStore } from './photo/views/made-store.ts'
import { VIEW_VERSION } from './photo/views/photo-views.ts'
import { random, sha256 } from './senses.ts'

/** What the program works on: the database, the photos, and the keys. */
export type OpenHouse = Pick<Connected, 'stores' | 'hold' | 'close' | 'embedded'> & {
  readonly photos: PhotoStore
  /** What was made of photos: may be emptied at any time. */
  readonly made: MadeStore
  readonly keysOf: KeysOf
}
export type OpenFailure = ConnectFailure | MasterKeyProblem | 'master-key-differs' | 'blobs-url-unknown'

export type Place = {
  readonly dataFolder: string
  readonly databaseUrl: string | undefined
  readonly log: (line: string) => void
}

/** Where the program works, from its environment: DATA (else ./data) and DATABASE_URL. */
export const placeFromEnvironment = (log: (line: string) => void): Place => ({
  dataFolder: path.resolve(process.env.DATA ?? 'data'),
  databaseUrl: process.env.DATABASE_URL || undefined,
  log,
})

/** Opens all of it, or says what stands in the way. Whoever opens it closes it. */
export const openHouse = async ({
  dataFolder,
  databaseUrl,
  log,
}: Place): Promise<Result<OpenHouse, OpenFailure>> => {
  // Storing photos in a folder when somebody asked for a bucket would lose them on the next machine.
  if (process.env.BLOBS_URL) return fail('blobs-url-unknown', 'BLOBS_URL')
  const master = await readMasterKey(dataFolder)
  if (!master.ok) return master
  const connected = await connect({ databaseUrl, dataFolder, log })
  if (!connected.ok) return connected
  const keysOf = keysFrom(master.value)
  const { stores, hold, close, embedded } = connected.value
  if (!(await keysFit(connected.value, keysOf))) {
    await close()
    return fail('master-key-differs', dataFolder)
  }
  return ok({
    stores,
    hold,
    close,
    embedded,
    keysOf,
    photos: createPhotoFiles(path.join(dataFolder, 'photos')),
    made: createMadeFiles(path.join(dataFolder, 'made'), VIEW_VERSION, () => toHex(random(6))),
  })
}

/** A master key from elsewhere would sign the log with a key that no phone knows. The first entry names the right one. */
const keysFit = async ({ stores }: Connected, keysOf: KeysOf): Promise<boolean> => {
  for (const company of await stores.log.companies()) {
    const first = (await stores.log.page(company, 0, 1)).leaves[0]
    const read = first?.bytes && readEntry(first.bytes, sha256)
    if (!read?.ok || !('entry' in read.value) || read.value.entry.kind !== 'company.founded') continue
    const { origin, logKey } = read.value.entry.body
    if (toBase64(keysOf(origin).log.publicKey) !== logKey) return false
  }
  return true
}
