import { fail, ok, type Result } from '../result.ts'
import type { Sha256, Sign, VerifySignature } from '../world.ts'
import { equalBytes, joinBytes, readBase64, readUtf8, toBase64, toHex, toUtf8 } from './encoding.ts'

/** A public key under a name, as C2SP notes know it. */
export type NoteKey = { readonly name: string; readonly publicKey: Uint8Array }
export type NoteSignature = {
  readonly name: string
  readonly keyId: Uint8Array
  readonly signature: Uint8Array
}
/** A note taken apart; nothing in it is to be believed before `openNote` has verified it. */
export type Note = { readonly text: string; readonly signatures: readonly NoteSignature[] }

export const MAX_NOTE_BYTES = 65_536
/** A manifest lists every file of a record: SPEC L17. */
export const MAX_MANIFEST_BYTES = 16 * 1024 * 1024
const ED25519 = 1
const MARK = '— '

/** Key id: first 4 bytes of SHA-256(name ‖ 0x0A ‖ 0x01 ‖ key). Source: C2SP signed-note, Ed25519 signatures. */
export const keyId = (key: NoteKey, sha256: Sha256): Uint8Array =>
  sha256(joinBytes(toUtf8(`${key.name}\n`), new Uint8Array([ED25519]), key.publicKey)).slice(0, 4)

/** `text` must end in a newline. Returns the whole note. */
export const signNote = async (text: string, key: NoteKey, sign: Sign, sha256: Sha256): Promise<string> => {
  const signature = await sign(toUtf8(text))
  return `${text}\n${MARK}${key.name} ${toBase64(joinBytes(keyId(key, sha256), signature))}\n`
}

/**
 * Takes a note apart without believing it. Fails: `note-malformed`.
 * Source: C2SP signed-note, Format: the text is parted from the signatures by the last empty line.
 */
export const readNote = (bytes: Uint8Array, most = MAX_NOTE_BYTES): Result<Note, 'note-malformed'> => {
  const whole = bytes.length <= most ? readUtf8(bytes) : undefined
  // Control characters could hide what a person reads in a terminal.
  if (whole === undefined || /[^\P{Cc}\n]/u.test(whole.replaceAll(/[\u007f-\u009f]/g, '')))
    return fail('note-malformed')
  const at = whole.lastIndexOf('\n\n')
  if (at < 0 || !whole.endsWith('\n')) return fail('note-malformed')
  const lines = whole.slice(at + 2, -1).split('\n')
  const signatures: NoteSignature[] = []
  for (const line of lines) {
    const match = /^— ([^\s+]+) (\S+)$/u.exec(line)
    const blob = match && readBase64(match[2]!)
    if (!match || !blob || blob.length < 5) return fail('note-malformed')
    signatures.push({ name: match[1]!, keyId: blob.slice(0, 4), signature: blob.slice(4) })
  }
  return ok({ text: whole.slice(0, at + 1), signatures })
}

/**
 * The text of a note that a known key has signed. Lines of unknown keys are ignored; a line under a known name and id
 * that does not verify fails the whole note (L18). Fails: `note-malformed`, `note-unsigned`, `note-signature`.
 */
export const openNote = async (
  bytes: Uint8Array,
  keys: readonly NoteKey[],
  senses: { sha256: Sha256; verify: VerifySignature },
  most = MAX_NOTE_BYTES,
): Promise<Result<string, 'note-malformed' | 'note-unsigned' | 'note-signature'>> => {
  const note = readNote(bytes, most)
  if (!note.ok) return note
  let signed = false
  for (const line of note.value.signatures) {
    const key = keys.find((k) => k.name === line.name && equalBytes(keyId(k, senses.sha256), line.keyId))
    if (!key) continue
    const holds =
      line.signature.length === 64 &&
      (await senses.verify(key.publicKey, toUtf8(note.value.text), line.signature))
    if (!holds) return fail('note-signature', line.name)
    signed = true
  }
  return signed ? ok(note.value.text) : fail('note-unsigned')
}

/** A C2SP verifier key: L19. */
export const writeVerifierKey = (key: NoteKey, sha256: Sha256): string =>
  `${key.name}+${toHex(keyId(key, sha256))}+${toBase64(joinBytes(new Uint8Array([ED25519]), key.publicKey))}`

/** Fails: `verifier-key-malformed`, also where the id is not that of the name and key. */
export const readVerifierKey = (text: string, sha256: Sha256): Result<NoteKey, 'verifier-key-malformed'> => {
  const match = /^([^\s+]+)\+([0-9a-f]{8})\+([A-Za-z0-9+/=]+)$/u.exec(text)
  const blob = match && readBase64(match[3]!)
  if (!match || !blob || blob.length !== 33 || blob[0] !== ED25519) return fail('verifier-key-malformed')
  const key = { name: match[1]!, publicKey: blob.slice(1) }
  return writeVerifierKey(key, sha256) === text ? ok(key) : fail('verifier-key-malformed')
}
