import type { Sha256, VerifySignature } from '../domain/world.ts'
import type { Archive } from './archive.ts'
import type { Report } from './findings.ts'
import type { NoteOpener } from './notes.ts'

/** What every check works on. */
export type Context = {
  readonly archive: Archive
  readonly report: Report
  readonly notes: NoteOpener
  readonly senses: { readonly sha256: Sha256; readonly verify: VerifySignature }
}

/** The names of a shape, with what the shape's first group found in each. */
export const namesOf = ({ archive }: Context, shape: RegExp): { name: string; found: string }[] =>
  archive.names.flatMap((name) => {
    const match = shape.exec(name)
    return match ? [{ name, found: match[1] ?? '' }] : []
  })
