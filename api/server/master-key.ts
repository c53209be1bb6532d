import { mkdir, open, readFile, stat } from 'node:fs/promises'
import path from 'node:path'
import { readHex, toHex } from '../domain/log/encoding.ts'
import { fail, ok, type Result } from '../domain/result.ts'
import { random } from './senses.ts'

export type MasterKeyProblem = 'master-key-malformed' | 'master-key-open'

const NAME = 'master.key'
const VARIABLE = 'SCREEDBOOK_MASTER_KEY'

/**
 * The house's master key: 32 bytes in hex, from the variable SCREEDBOOK_MASTER_KEY or a file of mode 0600 in the data
 * folder, made at the first start. Fails where the key is no key, or others may read the file.
 */
export const readMasterKey = async (dataFolder: string): Promise<Result<Uint8Array, MasterKeyProblem>> => {
  const given = process.env[VARIABLE]
  if (given !== undefined) return keyIn(given, VARIABLE)
  const file = path.join(dataFolder, NAME)
  await mkdir(dataFolder, { recursive: true })
  await makeOnce(file)
  const mode = (await stat(file)).mode & 0o077
  if (mode !== 0) return fail('master-key-open', file, { mode: mode.toString(8) })
  return keyIn(await readFile(file, 'utf8'), file)
}

const keyIn = (text: string, at: string): Result<Uint8Array, MasterKeyProblem> => {
  const key = readHex(text.trim())
  return key?.length === 32 ? ok(key) : fail('master-key-malformed', at)
}

/** Of two processes that start together, one makes the file and the other reads it. */
const makeOnce = async (file: string): Promise<void> => {
  try {
    const handle = await open(file, 'wx', 0o600)
    try {
      await handle.writeFile(`${toHex(random(32))}\n`)
      await handle.sync()
    } finally {
      await handle.close()
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
}
