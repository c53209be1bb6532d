import { readPdfText } from '../../api/cli/pdf-text.ts'
import { toHex, toUtf8 } from '../../api/domain/log/encoding.ts'
import { type NoteKey, signNote } from '../../api/domain/log/note.ts'
import {
  byName,
  MANIFEST,
  type Manifest,
  readManifest,
  SUMS,
  writeManifest,
  writeSums,
} from '../../api/domain/record/manifest.ts'
import { type Member, writeZip } from '../../api/server/record/write-zip.ts'
import { hashFile, sha256, verifySignature } from '../../api/server/senses.ts'
import { readerOf } from '../../api/verify/reader.ts'
import { type Verdict, type VerifySenses, verifyRecord } from '../../api/verify/verify.ts'
import { readZip } from '../../api/verify/zip.ts'
import type { ScriptedLog } from './scripted-log.ts'

/** A record taken apart: name → bytes. */
export type Files = Map<string, Uint8Array>

export const unpack = async (record: Uint8Array): Promise<Files> => {
  const { members } = await readZip(readerOf(record))
  return new Map(members.map(({ name, offset, size }) => [name, record.slice(offset, offset + size)]))
}

export const bytesOfStream = async (stream: ReadableStream<Uint8Array>): Promise<Uint8Array> =>
  new Uint8Array(await new Response(stream).arrayBuffer())

export const pack = (files: Files): Promise<Uint8Array> =>
  packMembers([...files].map(([name, bytes]) => ({ name, bytes })))
export const packMembers = (members: readonly Member[]): Promise<Uint8Array> =>
  bytesOfStream(writeZip(members))

export const textOf = (files: Files, name: string): string => {
  const bytes = files.get(name)
  if (!bytes) throw new Error(`there is no ${name} in the record`)
  return new TextDecoder().decode(bytes)
}

export const setText = (files: Files, name: string, change: (text: string) => string): void => {
  const before = textOf(files, name)
  const after = change(before)
  if (after === before) throw new Error(`the damage to ${name} changed nothing`)
  files.set(name, toUtf8(after))
}

export const logKeyOf = (log: ScriptedLog): NoteKey => ({ name: log.origin, publicKey: log.key.publicKey })

const manifestText = (files: Files): string => textOf(files, MANIFEST).split('\n\n')[0]!.concat('\n')

/** Lists and signs the files anew, with the log's key: what a forger can do who holds it. */
export const remake = async (
  files: Files,
  log: ScriptedLog,
  more: Partial<Manifest> = {},
): Promise<Uint8Array> => {
  const read = readManifest(manifestText(files))
  if (!read.ok) throw new Error('the manifest to remake is out of form')
  const listed = [...files]
    .filter(([name]) => name !== MANIFEST && name !== SUMS)
    .map(([name, bytes]) => ({ name, sha256: toHex(sha256(bytes)) }))
    .sort(byName)
  const sums = toUtf8(writeSums(listed))
  files.set(SUMS, sums)
  const all = [...listed, { name: SUMS, sha256: toHex(sha256(sums)) }]
  await signManifest(files, log, writeManifest({ ...(read.value as Manifest), ...more, files: all }))
  return pack(files)
}

export const signManifest = async (files: Files, log: ScriptedLog, text: string): Promise<void> => {
  files.set(MANIFEST, toUtf8(await signNote(text, logKeyOf(log), log.key.sign, sha256)))
}

export { manifestText }

export const verify = (record: Uint8Array, more: Partial<VerifySenses> = {}): Promise<Verdict> =>
  verifyRecord(record, { sha256, hashFile, verify: verifySignature, ...more })

/** With the page's text too, which takes a while. */
export const verifyAll = (record: Uint8Array, more: Partial<VerifySenses> = {}): Promise<Verdict> =>
  verify(record, { readPdfText, ...more })

/** `code file` of each finding, sorted, each once. */
export const said = (verdict: Verdict): string[] =>
  [...new Set(verdict.findings.map((f) => `${f.code} ${f.file}`))].sort()
