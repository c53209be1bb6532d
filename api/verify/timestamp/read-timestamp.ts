import { OctetString } from 'asn1js'
import { Certificate, type ContentInfo, CryptoEngine, SignedData, TimeStampResp, TSTInfo } from 'pkijs'
import { equalBytes } from '../../domain/log/encoding.ts'
import type { ReadTimestamp, StampProblem, StampQuestion } from '../stamp-claim.ts'
import { followChain, nameOf } from './chain.ts'
import { bareNumber, hashName, readDer } from './der.ts'
import { certificatesOf, signatureFaults, signerOf, TST_INFO } from './signer.ts'

const SIGNED_DATA = '1.2.840.113549.1.7.2'
/** Granted, and granted with modifications. Source: RFC 3161 (2001) §2.4.2. */
const GRANTED = new Set([0, 1])

/** A reader of RFC 3161 responses over a WebCrypto: Node's or a browser's. */
export const timestampReader = (crypto: Crypto): ReadTimestamp => {
  const engine = new CryptoEngine({ name: 'stamps', crypto })
  return async (response, question) => {
    try {
      const token = openToken(response)
      if (typeof token === 'string') return malformed(token)
      return await check(token, question, engine)
    } catch (error) {
      return malformed(`it can’t be read: ${error instanceof Error ? error.message : String(error)}`)
    }
  }
}

const malformed = (detail: string) => ({ problems: [{ code: 'stamp-malformed', detail } as const] })

type Token = { readonly signed: SignedData; readonly content: Uint8Array; readonly info: TSTInfo }

/** The token within a response; a sentence where there is none. */
const openToken = (response: Uint8Array): Token | string => {
  const answer = new TimeStampResp({ schema: readDer(response) })
  if (!GRANTED.has(answer.status.status)) return 'the authority did not grant it'
  if (!answer.timeStampToken) return 'it holds no token'
  const envelope: ContentInfo = answer.timeStampToken
  if (envelope.contentType !== SIGNED_DATA) return 'its token is not signed'
  const signed = new SignedData({ schema: envelope.content })
  const { eContentType, eContent } = signed.encapContentInfo
  if (eContentType !== TST_INFO || !(eContent instanceof OctetString))
    return 'what is signed is no time stamp'
  const content = new Uint8Array(eContent.getValue())
  return { signed, content, info: new TSTInfo({ schema: readDer(content) }) }
}

const check = async (
  { signed, content, info }: Token,
  { stamped, nonce, roots }: StampQuestion,
  engine: CryptoEngine,
) => {
  const problems: StampProblem[] = []
  const problem = (code: StampProblem['code'], details: readonly string[]): void => {
    for (const detail of details) problems.push({ code, detail })
  }
  const hash = hashName(info.messageImprint.hashAlgorithm.algorithmId)
  const imprint = new Uint8Array(await engine.digest({ name: 'SHA-256' }, stamped as Uint8Array<ArrayBuffer>))
  if (hash !== 'SHA-256') problem('stamp-differs', ['it is over another hash than SHA-256'])
  else if (!equalBytes(info.messageImprint.hashedMessage.valueBlock.valueHexView, imprint))
    problem('stamp-differs', ['it is over other data than this checkpoint'])
  const own = info.nonce?.valueBlock.valueHexView
  if (!own || !equalBytes(bareNumber(own), bareNumber(nonce)))
    problem('stamp-differs', ['its nonce is not that of the request which the log names'])

  const [signer, ...more] = signed.signerInfos
  const certificate = signer && signerOf(signed, signer)
  if (!signer || more.length > 0) problem('stamp-malformed', ['it does not bear one signature'])
  else if (!certificate)
    problem('stamp-authority', ['it does not bring the certificate of whoever signed it'])
  if (!signer || !certificate) return { problems }
  problem('stamp-signature', await signatureFaults(signer, certificate, content, engine))
  const at = info.genTime.getTime()
  const trusted = roots.map((der) => new Certificate({ schema: readDer(der) }))
  const chain = await followChain(certificate, certificatesOf(signed), trusted, at, engine)
  problem('stamp-authority', chain.faults)
  return { said: { at, authority: nameOf(certificate), rootedIn: chain.rootedIn }, problems }
}
