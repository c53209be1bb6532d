import { readBase64 } from '../../domain/log/encoding.ts'
import { fail, ok, type Result } from '../../domain/result.ts'

/** The certificates of a PEM file (RFC 7468), as DER. Fails: `pem-malformed` where there is none, or one is out of form. */
export const readCertificates = (text: string): Result<readonly Uint8Array[], 'pem-malformed'> => {
  const blocks = [...text.matchAll(/-----BEGIN CERTIFICATE-----([^-]*)-----END CERTIFICATE-----/g)]
  const found = blocks.map(([, base64 = '']) => readBase64(base64.replaceAll(/\s/g, '')))
  const read = found.filter((der) => der !== undefined)
  return read.length > 0 && read.length === found.length ? ok(read) : fail('pem-malformed')
}
