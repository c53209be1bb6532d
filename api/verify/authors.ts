import { type DeviceHead, readDeviceOrigin, readHead } from '../domain/log/device-log.ts'
import { readHex, toHex } from '../domain/log/encoding.ts'
import type { NoteKey } from '../domain/log/note.ts'
import { verifyInclusion } from '../domain/log/proof.ts'
import { readTlogProof } from '../domain/log/proof-file.ts'
import type { AuthorProof } from '../domain/record/heads.ts'
import { type Context, namesOf } from './context.ts'
import type { Devices } from './devices.ts'
import { type EntryFile, knownEntry } from './entries.ts'

/** An author's proof as it was read; `holds` where its head verified and includes the entry. */
export type CheckedProof = AuthorProof & { readonly name: string; readonly holds: boolean }

export type AuthorInput = {
  /** Every entry of the record, given or quoted. */
  readonly entries: readonly EntryFile[]
  /** Hashes in the thread's leaves whose bytes are not here: a proof of them may be there all the same. */
  readonly withheld: ReadonlySet<string>
  readonly devices: Devices
  /** The company's origin. */
  readonly origin: string | undefined
}

const nameOf = (hash: string): string => `authors/${hash}.tlog-proof`

/** L27, L41.6: each entry in the tree of the device that made it, under a head which that device signed. */
export const checkAuthors = async (context: Context, input: AuthorInput): Promise<CheckedProof[]> => {
  const { archive, report } = context
  const proofs: CheckedProof[] = []
  const known = new Set(input.entries.map((file) => file.hash))
  for (const file of input.entries) {
    checkBy(context, file, input.devices)
    const device = file.device
    if (device !== undefined && !input.devices.keys.has(device))
      report('device-unknown', file.name, `no quoted entry enrols its device, ${device}`)
    if (!archive.has(nameOf(file.hash)))
      report('author-missing', file.name, `there is no ${nameOf(file.hash)}`)
    else proofs.push(...(await checkProof(context, input, file.hash, device)))
  }
  for (const { name, found } of namesOf(context, /^authors\/([0-9a-f]{64})\.tlog-proof$/)) {
    if (known.has(found)) continue
    if (input.withheld.has(found)) proofs.push(...(await checkProof(context, input, found, undefined)))
    else report('file-unlisted', name, 'it is of an entry that this record does not hold')
  }
  return proofs
}

/** L41.6, L55: `by` is the server's exactly if the device is the server's, and else fits whose hands the device is in. */
const checkBy = ({ report }: Context, file: EntryFile, { server, holders }: Devices): void => {
  const entry = knownEntry(file)
  if (!entry || server === undefined) return
  const { by } = entry
  if ((by.known === 'server') !== (entry.device === server))
    report(
      'author-differs',
      file.name,
      'it is in the server’s name from another device, or in a person’s from the server',
    )
  const holder = holders.get(entry.device)
  if (!holder || by.known === 'server') return
  if (holder.is === 'crew' && by.known === 'own-device')
    report('author-differs', file.name, 'it comes from a shared phone as from a phone of one’s own')
  if (holder.is === 'person' && (by.known === 'picked' || by.person !== holder.person))
    report('author-differs', file.name, 'it comes from a phone of one’s own in the name of somebody else')
}

const checkProof = async (
  context: Context,
  { devices, origin }: AuthorInput,
  entry: string,
  device: string | undefined,
): Promise<CheckedProof[]> => {
  const { archive, report, senses } = context
  const name = nameOf(entry)
  const proof = readTlogProof((await archive.bytes(name))!)
  if (!proof.ok) {
    report(
      proof.problem.code === 'format-unknown' ? 'format-unknown' : 'author-proof',
      name,
      'it is no proof that this checker can read',
    )
    return []
  }
  const opened = await openHead(context, name, proof.value.note, { devices, origin, device })
  if (!opened) return []
  const { head, signed } = opened
  const { index, path } = proof.value
  const included = verifyInclusion(
    { index, size: head.size, leafHash: readHex(entry)!, root: head.root, path },
    senses.sha256,
  )
  if (!included) report('author-proof', name, 'its path does not lead from the entry to the head’s root')
  return [{ name, entry, index, head, holds: included && signed }]
}

type Expected = {
  readonly devices: Devices
  readonly origin: string | undefined
  readonly device: string | undefined
}

/** L24, L52: a head of that very device, signed with the key that its enrolment gives. */
const openHead = async (
  context: Context,
  name: string,
  bytes: Uint8Array,
  { devices, origin, device }: Expected,
): Promise<{ head: DeviceHead; signed: boolean } | undefined> => {
  const { report, notes, senses } = context
  const first = await notes.open(bytes, undefined)
  const head = first && readHead(first.text)
  const owner = head?.ok ? readDeviceOrigin(head.value.origin) : undefined
  if (!head?.ok || !owner || (origin !== undefined && owner.company !== origin)) {
    report('head-malformed', name, 'its note is no head of a device of this company')
    return undefined
  }
  if (head.value.seen.size === 0 && toHex(head.value.seen.root) !== toHex(senses.sha256(new Uint8Array()))) {
    report('head-malformed', name, 'it has seen an empty log with another root than the empty one')
    return undefined
  }
  const publicKey = devices.keys.get(owner.device)
  const key: NoteKey | undefined = publicKey && { name: head.value.origin, publicKey }
  if (device === undefined && !key)
    report('device-unknown', name, `no quoted entry enrols the device ${owner.device}`)
  const signed = (await notes.open(bytes, key))?.signed === true && (device ?? owner.device) === owner.device
  if (device !== undefined && device !== owner.device)
    report('head-signature', name, 'its head is that of another device')
  else if (key && !signed)
    report('head-signature', name, 'no signature of the device’s key holds over its head')
  return { head: head.value, signed }
}

/** L41.7: one root at one size, and one entry at one index, for each device and epoch. */
export const checkForks = ({ report }: Context, proofs: readonly CheckedProof[]): void => {
  const roots = new Map<string, string>()
  const places = new Map<string, string>()
  for (const { name, head, index, entry, holds } of proofs) {
    if (!holds) continue
    const [atSize, atIndex, root] = [
      `${head.origin} ${head.size}`,
      `${head.origin} ${index}`,
      toHex(head.root),
    ]
    if ((roots.get(atSize) ?? root) !== root)
      report('heads-fork', name, `another head of size ${head.size} has another root`)
    if ((places.get(atIndex) ?? entry) !== entry)
      report('heads-fork', name, `another entry stands at index ${index} of this device’s log`)
    roots.set(atSize, roots.get(atSize) ?? root)
    places.set(atIndex, places.get(atIndex) ?? entry)
  }
}
