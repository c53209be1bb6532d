import type { TreeHead } from '../log/checkpoint.ts'
import { readRoot, readSize } from '../log/checkpoint.ts'
import { isHash, toBase64 } from '../log/encoding.ts'
import { fail, ok, type Result } from '../result.ts'
import { readLocalTime, toUtcTime } from '../time.ts'

/** A file of the record by name, with the SHA-256 of its bytes in hex. */
export type ListedFile = { readonly name: string; readonly sha256: string }

/** What `manifest.note` signs: SPEC L38. */
export type Manifest = {
  readonly origin: string
  readonly job: string
  readonly checkpoint: TreeHead
  /** Time of receipt of the checkpoint's last leaf, ms. */
  readonly made: number
  readonly release: string
  readonly files: readonly ListedFile[]
}

export const MANIFEST = 'manifest.note'
export const SUMS = 'SHA256SUMS'
/** The checker's page, for whoever has nothing else at hand. */
export const CHECK_PAGE = 'verify.html'
const FORMAT = 'screedbook-record/v1'

/** Names are ASCII, so the order of code units is that of bytes. */
export const byName = (a: { readonly name: string }, b: { readonly name: string }): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : 0
const sumLine = ({ name, sha256 }: ListedFile): string => `${sha256}  ${name}`

export const writeManifest = (manifest: Manifest): string =>
  [
    FORMAT,
    `origin ${manifest.origin}`,
    `job ${manifest.job}`,
    `checkpoint ${manifest.checkpoint.size} ${toBase64(manifest.checkpoint.root)}`,
    `made ${toUtcTime(manifest.made)}`,
    `release ${manifest.release}`,
    ...[...manifest.files].sort(byName).map(sumLine),
    '',
  ].join('\n')

/** In the form of `sha256sum`: all files but itself and the manifest, in the manifest's order (SPEC L39). */
export const writeSums = (files: readonly ListedFile[]): string =>
  files.map((file) => `${sumLine(file)}\n`).join('')

const UUID = '[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}'
const FIELDS = [
  { name: 'origin', form: new RegExp(`^origin (screedbook(?:-demo)?/${UUID})$`) },
  { name: 'job', form: new RegExp(`^job (${UUID})$`) },
  { name: 'checkpoint', form: /^checkpoint (\S+ \S+)$/ },
  { name: 'made', form: /^made (\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z)$/ },
  { name: 'release', form: /^release (\S+)$/ },
] as const

/** What could be read of a manifest, with a sentence for each thing that is out of form: reading goes on (SPEC L42). */
export type ReadManifest = {
  readonly origin?: string
  readonly job?: string
  readonly checkpoint?: TreeHead
  readonly made?: number
  readonly release?: string
  readonly files: readonly ListedFile[]
  readonly faults: readonly string[]
}

/** Fails: `format-unknown` where the first line is of another version, `manifest-malformed` where it is none at all. */
export const readManifest = (text: string): Result<ReadManifest, 'manifest-malformed' | 'format-unknown'> => {
  if (!text.endsWith('\n')) return fail('manifest-malformed')
  const [format, ...lines] = text.slice(0, -1).split('\n')
  if (format !== FORMAT)
    return fail(format?.startsWith('screedbook-record/v') ? 'format-unknown' : 'manifest-malformed')
  const faults: string[] = []
  const fields = new Map<string, string>()
  for (const [i, { name, form }] of FIELDS.entries()) {
    const found = form.exec(lines[i] ?? '')?.[1]
    if (found === undefined) faults.push(`line ${i + 2} is not "${name}" in its form`)
    else fields.set(name, found)
  }
  const { files, faults: wrong } = readList(lines.slice(FIELDS.length))
  const [size, root] = readTree(fields.get('checkpoint'))
  const made = readUtcTime(fields.get('made') ?? '')
  if (fields.has('checkpoint') && (size === undefined || !root))
    faults.push('the checkpoint has no size and root')
  if (fields.has('made') && made === undefined) faults.push('the time in "made" is no time')
  const origin = fields.get('origin')
  const job = fields.get('job')
  const release = fields.get('release')
  return ok({
    ...(origin === undefined ? {} : { origin }),
    ...(job === undefined ? {} : { job }),
    ...(size === undefined || !root ? {} : { checkpoint: { size, root } }),
    ...(made === undefined ? {} : { made }),
    ...(release === undefined ? {} : { release }),
    files,
    faults: [...faults, ...wrong],
  })
}

const readTree = (text = ''): [number | undefined, Uint8Array | undefined] => {
  const [size = '', root = ''] = text.split(' ')
  return [readSize(size), readRoot(root)]
}

const readUtcTime = (text: string): number | undefined => {
  const ms = readLocalTime(text.replace(/Z$/, '+00:00'))
  return ms !== undefined && ms >= 0 && toUtcTime(ms) === text ? ms : undefined
}

/** A line of the list: hash, two blanks, name. */
export const readSumLine = (line: string): ListedFile | undefined => {
  const [, sha256, name] = /^([0-9a-f]{64}) {2}(.+)$/.exec(line) ?? []
  return sha256 && name && isHash(sha256) ? { name, sha256 } : undefined
}

/** Why a file may not be named so (SPEC L37), or undefined. */
export const nameFault = (name: string): string | undefined => {
  if (!/^[A-Za-z0-9._/-]+$/.test(name)) return 'is empty or holds other characters than names may'
  return name.split('/').some((part) => part === '' || part === '.' || part === '..')
    ? 'has an empty, "." or ".." part'
    : undefined
}

const readList = (lines: readonly string[]): { files: ListedFile[]; faults: string[] } => {
  const files: ListedFile[] = []
  const faults: string[] = []
  for (const line of lines) {
    const file = readSumLine(line)
    const fault = file && nameFault(file.name)
    const before = files.at(-1)
    if (!file) faults.push(`"${line.slice(0, 80)}" is not a hash, two blanks and a name`)
    else {
      if (fault) faults.push(`the name "${file.name.slice(0, 80)}" ${fault}`)
      if (file.name === MANIFEST) faults.push('the manifest lists itself')
      if (before && file.name <= before.name)
        faults.push(`"${file.name.slice(0, 80)}" is out of order or listed twice`)
      files.push(file)
    }
  }
  return { files, faults }
}
