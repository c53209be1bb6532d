import { type BaseBlock, fromBER } from 'asn1js'

/** The bytes as one ASN.1 value, and nothing after it. Throws otherwise. */
export const readDer = (bytes: Uint8Array): BaseBlock => {
  const { result, offset } = fromBER(bytes as Uint8Array<ArrayBuffer>)
  if (offset !== bytes.length) throw new Error('it is not one ASN.1 value')
  return result as BaseBlock
}

/** Without the zeros that ASN.1 sets before a number whose first bit is one. */
export const bareNumber = (bytes: Uint8Array): Uint8Array => {
  let from = 0
  while (from < bytes.length - 1 && bytes[from] === 0) from++
  return bytes.subarray(from)
}

/** Hashes by their object identifiers, as WebCrypto calls them. Source: RFC 5754 (2010) §2. */
const HASHES: Readonly<Record<string, string>> = {
  '1.3.14.3.2.26': 'SHA-1',
  '2.16.840.1.101.3.4.2.1': 'SHA-256',
  '2.16.840.1.101.3.4.2.2': 'SHA-384',
  '2.16.840.1.101.3.4.2.3': 'SHA-512',
}
export const hashName = (oid: string): string | undefined => HASHES[oid]
