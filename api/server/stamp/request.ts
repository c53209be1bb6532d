import { Integer, Null, OctetString } from 'asn1js'
import { AlgorithmIdentifier, MessageImprint, TimeStampReq } from 'pkijs'

const SHA_256 = '2.16.840.1.101.3.4.2.1'

/** An RFC 3161 §2.4.1 query for these 32 bytes, with a nonce, asking for the authority's certificates: DER. */
export const stampQuery = (imprint: Uint8Array, nonce: Uint8Array): Uint8Array => {
  const request = new TimeStampReq({
    version: 1,
    messageImprint: new MessageImprint({
      hashAlgorithm: new AlgorithmIdentifier({ algorithmId: SHA_256, algorithmParams: new Null() }),
      hashedMessage: new OctetString({ valueHex: imprint.slice().buffer as ArrayBuffer }),
    }),
    nonce: new Integer({ valueHex: nonce.slice().buffer as ArrayBuffer }),
    certReq: true,
  })
  return new Uint8Array(request.toSchema().toBER(false))
}
