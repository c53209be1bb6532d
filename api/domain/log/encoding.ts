const HEX = /^(?:[0-9a-f]{2})*$/
const BASE64 = /^(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?$/
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

const utf8 = new TextEncoder()
const strictUtf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })

export const toUtf8 = (text: string): Uint8Array => utf8.encode(text)

/** The text, or undefined where the bytes are not UTF-8. A byte-order mark is kept as a character. */
export const readUtf8 = (bytes: Uint8Array): string | undefined => {
  try {
    return strictUtf8.decode(bytes)
  } catch {
    return undefined
  }
}

const HEX_OF_BYTE = Array.from({ length: 256 }, (_, b) => b.toString(16).padStart(2, '0'))

export const toHex = (bytes: Uint8Array): string => {
  let text = ''
  for (const byte of bytes) text += HEX_OF_BYTE[byte]
  return text
}

/** What each character stands for, by its code; 255 for all others. */
const digitsOf = (alphabet: string): Uint8Array => {
  const digits = new Uint8Array(128).fill(255)
  for (let i = 0; i < alphabet.length; i++) digits[alphabet.charCodeAt(i)] = i
  return digits
}
const HEX_DIGITS = digitsOf('0123456789abcdef')
const BASE64_DIGITS = digitsOf(ALPHABET)

/** Lower-case hex only: one spelling for one value. */
export const readHex = (text: string): Uint8Array | undefined => {
  if (!HEX.test(text)) return undefined
  const bytes = new Uint8Array(text.length / 2)
  for (let i = 0; i < bytes.length; i++)
    bytes[i] = (HEX_DIGITS[text.charCodeAt(2 * i)]! << 4) | HEX_DIGITS[text.charCodeAt(2 * i + 1)]!
  return bytes
}

export const isHash = (text: string): boolean => text.length === 64 && HEX.test(text)

/** RFC 4648 §4, padded. */
export const toBase64 = (bytes: Uint8Array): string => {
  let text = ''
  for (let i = 0; i < bytes.length; i += 3) {
    const left = bytes.length - i
    const group = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0)
    text += ALPHABET[(group >> 18) & 63]! + ALPHABET[(group >> 12) & 63]!
    text += left > 1 ? ALPHABET[(group >> 6) & 63]! : '='
    text += left > 2 ? ALPHABET[group & 63]! : '='
  }
  return text
}

/** Refuses all but the one spelling: no white space, no missing padding, no stray bits in the last digit. */
export const readBase64 = (text: string): Uint8Array | undefined => {
  if (!BASE64.test(text)) return undefined
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0
  const bytes = new Uint8Array((text.length / 4) * 3 - padding)
  for (let i = 0, at = 0; i < text.length; i += 4) {
    let group = 0
    for (let j = 0; j < 4; j++) {
      const digit = BASE64_DIGITS[text.charCodeAt(i + j)]!
      // Padding stands for no bits.
      group = (group << 6) | (digit === 255 ? 0 : digit)
    }
    for (let j = 0; j < 3 && at < bytes.length; j++) bytes[at++] = (group >> (16 - 8 * j)) & 255
  }
  return hasStrayBits(text, padding) ? undefined : bytes
}

/** Whether the last digit before the padding holds bits beyond the last byte: 4 of them before `==`, 2 before `=`. */
const hasStrayBits = (text: string, padding: number): boolean => {
  if (padding === 0) return false
  const last = BASE64_DIGITS[text.charCodeAt(text.length - padding - 1)]!
  return (last & (padding === 2 ? 15 : 3)) !== 0
}

export const equalBytes = (a: Uint8Array, b: Uint8Array): boolean => {
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}

export const joinBytes = (...parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((length, part) => length + part.length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}
