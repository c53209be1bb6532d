import type { Sequence } from 'asn1js'
import {
  type Certificate,
  type CryptoEngine,
  IssuerAndSerialNumber,
  type SignedData,
  type SignerInfo,
} from 'pkijs'
import { equalBytes } from '../../domain/log/encoding.ts'
import { derOf } from './chain.ts'
import { hashName } from './der.ts'

/** Source: RFC 5652 (2009) §11.1, §11.2; RFC 5035 (2007) §3, §5.4. */
const CONTENT_TYPE = '1.2.840.113549.1.9.3'
const MESSAGE_DIGEST = '1.2.840.113549.1.9.4'
const SIGNING_CERTIFICATE = '1.2.840.113549.1.9.16.2.12'
const SIGNING_CERTIFICATE_V2 = '1.2.840.113549.1.9.16.2.47'
const SUBJECT_KEY_ID = '2.5.29.14'
export const TST_INFO = '1.2.840.113549.1.9.16.1.4'

/** The certificate that a signature names, among those that the token brings. */
export const signerOf = (signed: SignedData, signer: SignerInfo): Certificate | undefined =>
  certificatesOf(signed).find((certificate) => {
    if (signer.sid instanceof IssuerAndSerialNumber)
      return (
        equalBytes(
          new Uint8Array(signer.sid.issuer.valueBeforeDecode),
          new Uint8Array(certificate.issuer.valueBeforeDecode),
        ) && signer.sid.serialNumber.isEqual(certificate.serialNumber)
      )
    const own = certificate.extensions?.find(({ extnID }) => extnID === SUBJECT_KEY_ID)?.parsedValue
    const wanted: Uint8Array | undefined = signer.sid?.valueBlock?.valueHexView
    const has: Uint8Array | undefined = own?.valueBlock?.valueHexView
    return wanted !== undefined && has !== undefined && equalBytes(wanted, has)
  })

export const certificatesOf = (signed: SignedData): Certificate[] =>
  (signed.certificates ?? []).filter((one): one is Certificate => 'subjectPublicKeyInfo' in one)

/** Whether the signature holds over the content: each thing that does not, in a sentence. */
export const signatureFaults = async (
  signer: SignerInfo,
  certificate: Certificate,
  content: Uint8Array,
  engine: CryptoEngine,
): Promise<string[]> => {
  const hash = hashName(signer.digestAlgorithm.algorithmId)
  if (!hash || hash === 'SHA-1') return ['it is signed over a hash that is not accepted']
  const digest = (name: string, bytes: Uint8Array) =>
    engine.digest({ name }, bytes as Uint8Array<ArrayBuffer>).then((hashed) => new Uint8Array(hashed))
  const faults: string[] = []
  const attribute = (oid: string) =>
    signer.signedAttrs?.attributes.find(({ type }) => type === oid)?.values[0]
  if (attribute(CONTENT_TYPE)?.valueBlock.toString() !== TST_INFO)
    faults.push('its signature is over another kind of content')
  const stated: Uint8Array | undefined = attribute(MESSAGE_DIGEST)?.valueBlock.valueHexView
  if (!stated || !equalBytes(stated, await digest(hash, content)))
    faults.push('its signature is over other content than the token holds')
  const named = certificateNamed(attribute(SIGNING_CERTIFICATE_V2), attribute(SIGNING_CERTIFICATE))
  if (!named || !equalBytes(named.hash, await digest(named.algorithm, derOf(certificate))))
    faults.push('its signature does not name the certificate that it is checked with')
  const holds = await engine
    .verifyWithPublicKey(
      signer.signedAttrs?.encodedValue ?? new ArrayBuffer(0),
      signer.signature,
      certificate.subjectPublicKeyInfo,
      signer.signatureAlgorithm,
      hash,
    )
    .catch(() => false)
  if (!holds) faults.push('its signature does not verify')
  return faults
}

type Block = { readonly valueBlock: { readonly value: readonly Block[]; readonly valueHexView?: Uint8Array } }

/** ESSCertIDv2, of which an absent algorithm is SHA-256, or the older ESSCertID, which is SHA-1. */
const certificateNamed = (
  v2: Sequence | undefined,
  v1: Sequence | undefined,
): { hash: Uint8Array; algorithm: string } | undefined => {
  const first = (attribute: Sequence | undefined): Block | undefined =>
    (attribute as Block | undefined)?.valueBlock.value[0]?.valueBlock.value[0]
  const [newer, older] = [first(v2), first(v1)]
  const parts = (newer ?? older)?.valueBlock.value
  // A sequence before the hash is its algorithm's identifier.
  const [head, second] = parts ?? []
  const isIdentified = Array.isArray(head?.valueBlock.value) && head.valueBlock.value.length > 0
  const hash = (isIdentified ? second : head)?.valueBlock.valueHexView
  const algorithm = newer
    ? isIdentified
      ? hashName(String(head.valueBlock.value[0]?.valueBlock ?? ''))
      : 'SHA-256'
    : 'SHA-1'
  return hash && algorithm ? { hash, algorithm } : undefined
}
