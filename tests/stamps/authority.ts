import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fromBER, Integer, type OctetString, Sequence } from 'asn1js'
import { type ContentInfo, SignedData, TimeStampResp } from 'pkijs'

/** A time-stamp authority on this machine, made of the openssl command: a root, an authority below it, and odd ones. */
export type Authority = {
  readonly folder: string
  /** The root's certificate as PEM. */
  readonly root: string
  /** Another root, which vouches for nobody here. */
  readonly strange: string
  /** Answers a query (DER) as the authority does. */
  readonly reply: (query: Uint8Array) => Uint8Array
  /** The time-stamp info of a granted response, signed anew with one of the other certificates. */
  readonly signedBy: (response: Uint8Array, signer: Signer, how?: readonly string[]) => Uint8Array
  readonly remove: () => void
}

/** Certificates under the root: what is odd about each. */
const SIGNERS = {
  good: { days: 365, extensions: 'stamps' },
  /** A key on P-384. */
  curve: { days: 365, extensions: 'stamps' },
  /** What it is for is not marked as critical. */
  lax: { days: 365, extensions: 'lax' },
  /** It is for other things too. */
  both: { days: 365, extensions: 'both' },
  /** It is for web servers. */
  web: { days: 365, extensions: 'web' },
  /** It ended before it was made. */
  expired: { days: -1, extensions: 'stamps' },
} as const
export type Signer = keyof typeof SIGNERS | 'impostor'

const CONFIG = `
[req]
distinguished_name = dn
[dn]
[root]
basicConstraints = critical, CA:TRUE
keyUsage = critical, keyCertSign, cRLSign
[stamps]
basicConstraints = CA:FALSE
extendedKeyUsage = critical, timeStamping
[lax]
extendedKeyUsage = timeStamping
[both]
extendedKeyUsage = critical, timeStamping, codeSigning
[web]
extendedKeyUsage = critical, serverAuth
[tsa]
default_tsa = here
[here]
serial = ./serial
signer_cert = ./good.pem
certs = ./root.pem
signer_key = ./good.key
signer_digest = sha256
default_policy = 1.3.6.1.4.1.99999.1
digests = sha256
accuracy = secs:1
ess_cert_id_alg = sha256
`

/** Takes some hundred milliseconds of openssl. `remove` takes its folder away. */
export const createAuthority = (): Authority => {
  const folder = mkdtempSync(path.join(tmpdir(), 'screedbook-authority-'))
  const at = (name: string): string => path.join(folder, name)
  const openssl = (...args: string[]): Buffer =>
    execFileSync('openssl', args, { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'] })
  writeFileSync(at('config'), CONFIG)
  writeFileSync(at('serial'), '01\n')
  const rootOf = (name: string, subject: string): string => {
    openssl('ecparam', '-name', 'prime256v1', '-genkey', '-noout', '-out', `${name}.key`)
    openssl(
      'req',
      '-new',
      '-x509',
      '-key',
      `${name}.key`,
      '-subj',
      subject,
      '-days',
      '3650',
      '-config',
      'config',
      '-extensions',
      'root',
      '-out',
      `${name}.pem`,
    )
    return readFileSync(at(`${name}.pem`), 'utf8')
  }
  const certify = (name: string, subject: string, root: string, days: number, extensions: string): void => {
    if (name === 'curve') openssl('ecparam', '-name', 'secp384r1', '-genkey', '-noout', '-out', `${name}.key`)
    else openssl('genpkey', '-algorithm', 'RSA', '-pkeyopt', 'rsa_keygen_bits:2048', '-out', `${name}.key`)
    openssl(
      'req',
      '-new',
      '-key',
      `${name}.key`,
      '-subj',
      subject,
      '-config',
      'config',
      '-out',
      `${name}.csr`,
    )
    openssl(
      'x509',
      '-req',
      '-in',
      `${name}.csr`,
      '-CA',
      `${root}.pem`,
      '-CAkey',
      `${root}.key`,
      '-CAcreateserial',
      '-days',
      String(days),
      '-extfile',
      'config',
      '-extensions',
      extensions,
      '-out',
      `${name}.pem`,
    )
  }
  const root = rootOf('root', '/CN=Harrow Time Root')
  const strange = rootOf('strange', '/CN=Dunlin Time Root')
  // The same name as the root's, and another key: whoever it certifies has the right issuer's name and the wrong signature.
  rootOf('mask', '/CN=Harrow Time Root')
  for (const [name, { days, extensions }] of Object.entries(SIGNERS))
    certify(name, `/CN=Harrow Time (${name})`, 'root', days, extensions)
  certify('impostor', '/CN=Harrow Time (impostor)', 'mask', 365, 'stamps')
  return {
    folder,
    root,
    strange,
    reply: (query) => {
      writeFileSync(at('query'), query)
      openssl('ts', '-reply', '-config', 'config', '-queryfile', 'query', '-out', 'response')
      return new Uint8Array(readFileSync(at('response')))
    },
    signedBy: (response, signer, how = []) => {
      writeFileSync(at('info'), infoOf(response))
      openssl(
        'cms',
        '-sign',
        '-binary',
        '-nodetach',
        '-cades',
        '-nosmimecap',
        '-econtent_type',
        '1.2.840.113549.1.9.16.1.4',
        '-in',
        'info',
        '-signer',
        `${signer}.pem`,
        '-inkey',
        `${signer}.key`,
        '-certfile',
        'root.pem',
        ...how,
        '-outform',
        'DER',
        '-out',
        'signed',
      )
      return granted(new Uint8Array(readFileSync(at('signed'))))
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}

/** The time-stamp info within a response: what the authority signed for. */
export const infoOf = (response: Uint8Array): Uint8Array => {
  const { timeStampToken } = new TimeStampResp({
    schema: fromBER(response as Uint8Array<ArrayBuffer>).result,
  })
  const signed = new SignedData({ schema: (timeStampToken as ContentInfo).content })
  return new Uint8Array((signed.encapContentInfo.eContent as OctetString).getValue())
}

/** A response of status "granted" around a token. Source: RFC 3161 (2001) §2.4.2. */
const granted = (token: Uint8Array): Uint8Array => {
  const status = new Sequence({ value: [new Integer({ value: 0 })] })
  const { result } = fromBER(token as Uint8Array<ArrayBuffer>)
  return new Uint8Array(new Sequence({ value: [status, result] }).toBER(false))
}

/** A response in which the authority says no. */
export const rejected = (): Uint8Array => {
  const status = new Sequence({ value: [new Integer({ value: 2 })] })
  return new Uint8Array(new Sequence({ value: [status] }).toBER(false))
}

/** The authority behind HTTP; `answer` may be changed under way, as when it breaks. */
export type Served = {
  readonly url: string
  answer: (query: Uint8Array) => Uint8Array | number
  close(): Promise<void>
}

export const serveAuthority = async (answer: Served['answer']): Promise<Served> => {
  const served: { answer: Served['answer'] } = { answer }
  const server: Server = createServer(async (request, response) => {
    const parts: Buffer[] = []
    for await (const part of request) parts.push(part as Buffer)
    const said =
      request.headers['content-type'] === 'application/timestamp-query'
        ? served.answer(new Uint8Array(Buffer.concat(parts)))
        : 415
    if (typeof said === 'number') response.writeHead(said).end()
    else response.writeHead(200, { 'content-type': 'application/timestamp-reply' }).end(said)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  return Object.assign(served, {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/stamps`,
    close: () => new Promise<void>((resolve) => void server.close(() => resolve())),
  })
}
