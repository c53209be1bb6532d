import { readHead, writeHead } from '../../../api/domain/log/device-log.ts'
import { readHex, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import { type Leaf, readLeaf, writeLeaf } from '../../../api/domain/log/leaf.ts'
import { readNote, signNote } from '../../../api/domain/log/note.ts'
import { readTlogProof, writeTlogProof } from '../../../api/domain/log/proof-file.ts'
import { sha256 } from '../../../api/server/senses.ts'
import type { FindingCode } from '../../../api/verify/findings.ts'
import { leavesOf, relink } from '../forge.ts'
import type { GoodLog } from '../good-log.ts'
import { type Files, remake, setText, textOf } from '../record-kit.ts'
import { keyOf } from '../scripted-log.ts'

/** What one damage is given: the good log, and its record taken apart afresh. */
export type Ground = { readonly good: GoodLog; readonly files: Files }
/** `screedbook verify`, `verify.html` in a browser, and the one in tests/spec-checker. */
export type Checker = 'verify' | 'verify.html' | 'spec-checker'
/** What concerns the log. */
export const ALL: readonly Checker[] = ['verify', 'verify.html', 'spec-checker']
/** What needs the rules of the trade, a reader of PDFs, or one of time stamps. */
export const OURS: readonly Checker[] = ['verify', 'verify.html']

export type Row = {
  /** What was done to the record. */
  readonly damage: string
  readonly rule: string
  /** Which checkers must find it. */
  readonly by: readonly Checker[]
  readonly make: (ground: Ground) => Promise<Uint8Array>
  /** Code and file; these must be among the findings. A file may be a pattern. */
  readonly expect: readonly (readonly [FindingCode, string | RegExp])[]
}

export const entryFile = (count: number): string => `entries/${String(count).padStart(6, '0')}.json`
export const author = (good: GoodLog, name: string): string => `authors/${good.named.get(name)}.tlog-proof`
export const countOf = (good: GoodLog, name: string): number =>
  good.log.leaves.find((l) => l.entryHash === good.named.get(name))!.count
export const quotedOf = (good: GoodLog, kind: string, device?: string): string =>
  good.log.leaves.find(
    (l) =>
      l.kind === kind &&
      (device === undefined || JSON.parse(new TextDecoder().decode(l.bytes)).body.device === device),
  )!.entryHash
export const photoName = (files: Files): string =>
  [...files.keys()].find((name) => name.startsWith('photos/'))!
export const flip = (bytes: Uint8Array, at = Math.floor(bytes.length / 2)): Uint8Array => {
  const copy = bytes.slice()
  copy[at] = copy[at]! ^ 1
  return copy
}
export const rename = (files: Files, from: string, to: string): void => {
  files.set(to, files.get(from)!)
  files.delete(from)
}

/** A damage to one file's text, the manifest remade and signed by whoever holds the log's key. */
export const text =
  (name: string | ((ground: Ground) => string), change: (text: string) => string) =>
  async (ground: Ground): Promise<Uint8Array> => {
    setText(ground.files, typeof name === 'string' ? name : name(ground), change)
    return remake(ground.files, ground.good.log)
  }
export const without =
  (name: string | ((ground: Ground) => string)) =>
  async (ground: Ground): Promise<Uint8Array> => {
    if (!ground.files.delete(typeof name === 'string' ? name : name(ground)))
      throw new Error('there is nothing to leave out')
    return remake(ground.files, ground.good.log)
  }
/** Leaves of the thread changed and linked anew, the manifest remade. */
export const thread =
  (change: (leaves: ReturnType<typeof leavesOf>) => ReturnType<typeof leavesOf>) =>
  async ({ good, files }: Ground): Promise<Uint8Array> => {
    relink(files, change(leavesOf(files)))
    return remake(files, good.log)
  }

/** The author's proof of an entry under a head that its device, or somebody else, signs as told. */
export const headed =
  (
    name: string,
    change: (head: Parameters<typeof writeHead>[0]) => Parameters<typeof writeHead>[0],
    signer?: string,
  ) =>
  async ({ good, files }: Ground): Promise<Uint8Array> => {
    const file = author(good, name)
    const proof = readTlogProof(files.get(file)!)
    const note = proof.ok ? readNote(proof.value.note) : proof
    const head = note.ok ? readHead(note.value.text) : note
    if (!proof.ok || !head.ok) throw new Error('the good proof is out of form')
    const changed = change(head.value)
    const key = signer === undefined ? good.devices.phone.key : keyOf(signer)
    const signed = await signNote(
      writeHead(changed),
      { name: changed.origin, publicKey: key.publicKey },
      key.sign,
      sha256,
    )
    files.set(file, toUtf8(writeTlogProof({ ...proof.value, note: signed })))
    return remake(files, good.log)
  }

/** One quoted leaf changed, the manifest remade. */
export const quotedLeaf = async (
  { good, files }: Ground,
  kind: string,
  change: (leaf: Leaf) => Leaf,
): Promise<Uint8Array> => {
  const name = `company/${quotedOf(good, kind)}.leaf`
  const leaf = readLeaf(readHex(textOf(files, name).trim())!)
  if (!leaf.ok) throw new Error('the good leaf is out of form')
  setText(files, name, () => `${toHex(writeLeaf(change(leaf.value)))}\n`)
  return remake(files, good.log)
}
