import { toHex } from '../domain/log/encoding.ts'
import { type NoteKey, openNote, readNote } from '../domain/log/note.ts'
import type { Sha256, VerifySignature } from '../domain/world.ts'

/** A note's text with what became of its signature: read first, believed only if `signed`. */
export type OpenedNote = { readonly text: string; readonly signed: boolean }

/** Opens notes; each pair of note and key is verified once, however many files repeat it. */
export type NoteOpener = {
  /** Undefined where the bytes are no note (L17). Without a key nothing is signed. */
  readonly open: (
    bytes: Uint8Array,
    key: NoteKey | undefined,
    most?: number,
  ) => Promise<OpenedNote | undefined>
  readonly verified: () => number
}

export const noteOpener = (senses: { sha256: Sha256; verify: VerifySignature }): NoteOpener => {
  const known = new Map<string, Promise<OpenedNote | undefined>>()
  let verified = 0
  const open = async (
    bytes: Uint8Array,
    key: NoteKey | undefined,
    most?: number,
  ): Promise<OpenedNote | undefined> => {
    const note = readNote(bytes, most)
    if (!note.ok) return undefined
    if (!key) return { text: note.value.text, signed: false }
    verified++
    const opened = await openNote(bytes, [key], senses, most)
    return { text: note.value.text, signed: opened.ok }
  }
  return {
    open: (bytes, key, most) => {
      const name = key ? `${key.name} ${toHex(key.publicKey)}` : '-'
      const id = `${toHex(senses.sha256(bytes))} ${name}`
      const before = known.get(id)
      if (before) return before
      const opening = open(bytes, key, most)
      known.set(id, opening)
      return opening
    },
    verified: () => verified,
  }
}
