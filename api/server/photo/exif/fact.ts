import type { Fact } from '../../../contract/messages/photo-view.ts'

export const given = <T>(value: T): Fact<T> => ({ is: 'given', value })
export const absent: Fact<never> = { is: 'absent' }

/** There, and no sense to be made of it. What was written is kept where it is text, short, and printable. */
export const unreadable = (wrote?: unknown): Fact<never> => {
  const text = typeof wrote === 'number' ? String(wrote) : wrote
  if (typeof text !== 'string') return { is: 'unreadable' }
  return { is: 'unreadable', wrote: printable(text).slice(0, MOST_TEXT) }
}

const MOST_TEXT = 64

/** Text of a tag: NULs and blanks at its end cut, as EXIF pads them; blank is absent. Source: Exif 2.32 §4.6.2. */
export const readText = (value: unknown): Fact<string> => {
  if (value === undefined || value === null) return absent
  if (typeof value !== 'string') return unreadable(value)
  const text = printable(value).trim()
  return text === '' ? absent : given(text.slice(0, MOST_TEXT))
}

/** The maker of the file controls every character: control characters and marks that turn text round are left out. */
const printable = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, '')
