import { BasicConstraints, type Certificate, type CryptoEngine, ExtKeyUsage } from 'pkijs'
import { equalBytes } from '../../domain/log/encoding.ts'

/** Source: RFC 5280 (2008) §4.2. */
const BASIC_CONSTRAINTS = '2.5.29.19'
const KEY_USAGE = '2.5.29.15'
const EXTENDED_KEY_USAGE = '2.5.29.37'
const TIME_STAMPING = '1.3.6.1.5.5.7.3.8'
/** Extensions that are looked at here; another one that is critical can't be let pass (RFC 5280 §4.2). */
const KNOWN = new Set([BASIC_CONSTRAINTS, KEY_USAGE, EXTENDED_KEY_USAGE])
const MOST_LINKS = 8
/** keyCertSign, bit 5. */
const MAY_SIGN_CERTIFICATES = 0x04

export const derOf = (certificate: Certificate): Uint8Array =>
  new Uint8Array(certificate.toSchema(false).toBER(false))

const nameBytes = (name: Certificate['subject']): Uint8Array => new Uint8Array(name.valueBeforeDecode)

/** A name's values in their order, as `CN of Somebody, Town`. */
export const nameOf = (certificate: Certificate): string =>
  certificate.subject.typesAndValues.map(({ value }) => String(value.valueBlock.value)).join(', ')

export type Chain = { readonly rootedIn: 'given' | 'token'; readonly faults: readonly string[] }

/**
 * From the authority's certificate upward, through those that the token brings, to one that was given as trusted; with none
 * given, as far as the token leads. Each link's signature, its right to sign certificates, and its validity at the time.
 */
export const followChain = async (
  signer: Certificate,
  brought: readonly Certificate[],
  trusted: readonly Certificate[],
  at: number,
  engine: CryptoEngine,
): Promise<Chain> => {
  const faults = [...purposeFaults(signer)]
  let one = signer
  for (let links = 0; links <= MOST_LINKS; links++) {
    faults.push(...timeFaults(one, at), ...unknownFaults(one))
    if (trusted.some((root) => equalBytes(derOf(root), derOf(one)))) return { rootedIn: 'given', faults }
    const root = await issuerOf(one, trusted, engine)
    if (root) {
      return { rootedIn: 'given', faults: [...faults, ...issuerFaults(root, links), ...timeFaults(root, at)] }
    }
    const isOwn = equalBytes(nameBytes(one.subject), nameBytes(one.issuer))
    const next = isOwn ? undefined : await issuerOf(one, brought, engine)
    if (!next) {
      if (isOwn && !(await signedBy(one, one, engine)))
        faults.push(`${nameOf(one)} did not sign its own certificate`)
      if (!isOwn && brought.some((other) => equalBytes(nameBytes(other.subject), nameBytes(one.issuer))))
        faults.push(
          `the certificate of ${nameOf(one)} was not signed by the one that its issuer’s name belongs to`,
        )
      if (trusted.length > 0)
        faults.push(`its certificates lead to ${nameOf(one)}, and not to one that was given as trusted`)
      return { rootedIn: 'token', faults }
    }
    faults.push(...issuerFaults(next, links))
    one = next
  }
  return { rootedIn: 'token', faults: [...faults, 'its chain of certificates is too long'] }
}

const issuerOf = async (
  one: Certificate,
  among: readonly Certificate[],
  engine: CryptoEngine,
): Promise<Certificate | undefined> => {
  for (const other of among)
    if (equalBytes(nameBytes(other.subject), nameBytes(one.issuer)) && (await signedBy(one, other, engine)))
      return other
  return undefined
}

const signedBy = async (one: Certificate, issuer: Certificate, engine: CryptoEngine): Promise<boolean> => {
  try {
    return await one.verify(issuer, engine)
  } catch {
    return false
  }
}

const extensionOf = (certificate: Certificate, oid: string) =>
  certificate.extensions?.find((extension) => extension.extnID === oid)

/** RFC 3161 §2.3: the certificate is for time stamps and for nothing else, and says so as critical. */
const purposeFaults = (signer: Certificate): string[] => {
  const extension = extensionOf(signer, EXTENDED_KEY_USAGE)
  const usage = extension?.parsedValue
  if (!(usage instanceof ExtKeyUsage)) return ['its certificate does not say that it is for time stamps']
  const faults = usage.keyPurposes.some((purpose) => purpose === TIME_STAMPING)
    ? []
    : ['its certificate is not for time stamps']
  if (usage.keyPurposes.length !== 1) faults.push('its certificate is for other things than time stamps too')
  if (!extension?.critical) faults.push('its certificate does not say as critical what it is for')
  return faults
}

const timeFaults = (certificate: Certificate, at: number): string[] =>
  at < certificate.notBefore.value.getTime() || at > certificate.notAfter.value.getTime()
    ? [`the certificate of ${nameOf(certificate)} was not valid at the time`]
    : []

const unknownFaults = (certificate: Certificate): string[] =>
  (certificate.extensions ?? [])
    .filter(({ extnID, critical }) => critical && !KNOWN.has(extnID))
    .map(
      ({ extnID }) =>
        `the certificate of ${nameOf(certificate)} has a critical extension that is not known, ${extnID}`,
    )

const issuerFaults = (issuer: Certificate, below: number): string[] => {
  const basic = extensionOf(issuer, BASIC_CONSTRAINTS)?.parsedValue
  const name = nameOf(issuer)
  const faults =
    basic instanceof BasicConstraints && basic.cA ? [] : [`${name} has no right to sign certificates`]
  if (
    basic instanceof BasicConstraints &&
    typeof basic.pathLenConstraint === 'number' &&
    below > basic.pathLenConstraint
  )
    faults.push(`${name} may not stand so far above the authority`)
  const usage = extensionOf(issuer, KEY_USAGE)?.parsedValue
  const bits: Uint8Array | undefined = usage?.valueBlock?.valueHexView
  if (bits && ((bits[0] ?? 0) & MAY_SIGN_CERTIFICATES) === 0)
    faults.push(`${name} has a key that is not for signing certificates`)
  return faults
}
