import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'

/** exiftool (Debian: libimage-exiftool-perl), the judge of what a file says. Throws where it is not installed. */
export const runExiftool = (args: readonly string[]): string =>
  execFileSync('exiftool', [...args], { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })

export type Told = { readonly SourceFile: string; readonly [tag: string]: string | number }

/** All tags of the files, as group:name, numbers as they stand. */
export const tellTags = (files: readonly string[]): Told[] =>
  JSON.parse(runExiftool(['-json', '-n', '-G1', ...files])) as Told[]

/** Runs on the bytes as a file, and takes it away again. */
export const asFile = <T>(bytes: Uint8Array, name: string, use: (file: string) => T): T => {
  const folder = mkdtempSync(path.join(tmpdir(), 'screedbook-exif-'))
  try {
    const file = path.join(folder, name)
    writeFileSync(file, bytes)
    return use(file)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
