/** A photo's media type by its first bytes, never by what it was called. Undefined for anything else. */
export const kindOfPhoto = (
  start: Uint8Array,
): 'image/jpeg' | 'image/png' | 'image/webp' | 'image/heic' | undefined => {
  const ascii = (from: number, to: number) => String.fromCharCode(...start.slice(from, to))
  if (start[0] === 0xff && start[1] === 0xd8 && start[2] === 0xff) return 'image/jpeg'
  if (start[0] === 0x89 && ascii(1, 8) === 'PNG\r\n\u001a\n') return 'image/png'
  if (ascii(0, 4) === 'RIFF' && ascii(8, 12) === 'WEBP') return 'image/webp'
  if (ascii(4, 8) === 'ftyp' && /^(?:heic|heix|hevc|mif1|msf1)$/.test(ascii(8, 12))) return 'image/heic'
  return undefined
}
