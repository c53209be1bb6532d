import { webcrypto } from 'node:crypto'
import { open, readFile } from 'node:fs/promises'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { readVerifierKey } from '../domain/log/note.ts'
import { readSlipWords } from '../domain/log/slip.ts'
import { toUtcTime } from '../domain/time.ts'
import { hashFile, sha256, verifySignature } from '../server/senses.ts'
import { type Finding, isFailure } from '../verify/findings.ts'
import { type Anchor, anchorOf } from '../verify/groups.ts'
import type { Reader } from '../verify/reader.ts'
import type { GivenSlip } from '../verify/slip.ts'
import type { ToldStamp } from '../verify/stamps.ts'
import { readCertificates } from '../verify/timestamp/pem.ts'
import { timestampReader } from '../verify/timestamp/read-timestamp.ts'
import { type Verdict, verifyRecord } from '../verify/verify.ts'
import type { Io } from './main.ts'
import { readPdfText } from './pdf-text.ts'

const USAGE = 'screedbook verify FILE [--key VKEY] [--slip FILE|"EIGHT WORDS"] [--tsa-ca FILE] [--json]'
const OPTIONS = {
  key: { type: 'string' },
  slip: { type: 'string' },
  'tsa-ca': { type: 'string' },
  json: { type: 'boolean' },
} as const

/**
 * Checks a record and prints one sentence for each finding. Returns 0 where it holds, 1 where anything fails, 2 where
 * the words are off or a file can't be read.
 */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  const asked = readArgs(args)
  if (typeof asked === 'string') {
    io.err(asked)
    io.err(USAGE)
    return 2
  }
  const { file, values } = asked
  const logKey = values.key === undefined ? undefined : readVerifierKey(values.key.trim(), sha256)
  if (logKey && !logKey.ok) {
    io.err('--key is no verifier key: it looks like screedbook/…+1a2b3c4d+AX…')
    return 2
  }
  try {
    const slip = values.slip === undefined ? undefined : await readSlipGiven(values.slip)
    if (typeof slip === 'string') {
      io.err(slip)
      return 2
    }
    const ca = values['tsa-ca']
    const roots = ca === undefined ? undefined : readCertificates(await readFile(ca, 'utf8'))
    if (roots && !roots.ok) {
      io.err(
        `--tsa-ca names ${ca}, which holds no certificate (PEM): it begins with -----BEGIN CERTIFICATE-----`,
      )
      return 2
    }
    const verdict = await verifyFile(file, {
      ...(logKey ? { logKey: logKey.value } : {}),
      ...(slip ? { slip } : {}),
      ...(roots ? { stampRoots: roots.value } : {}),
    })
    if (values.json) io.out(JSON.stringify(verdict))
    else for (const line of tell(file, verdict)) io.out(line)
    return verdict.holds ? 0 : 1
  } catch (error) {
    io.err(`${(error as NodeJS.ErrnoException).path ?? file} could not be read: ${(error as Error).message}`)
    return 2
  }
}

/** A slip's file, or its eight words in quotes; a sentence where they are no words of a slip. */
const readSlipGiven = async (given: string): Promise<GivenSlip | string> => {
  if (!given.trim().includes(' ') || (await isFile(given)))
    return { name: path.basename(given), bytes: new Uint8Array(await readFile(given)) }
  const words = readSlipWords(given)
  if (words.ok) return { name: 'slip', words: words.value }
  return words.problem.code === 'slip-word-unknown'
    ? `--slip: "${words.problem.at}" is not a word that slips have; compare it with the slip.`
    : `--slip: a slip has eight words; these are ${words.problem.at}.`
}

const isFile = async (name: string): Promise<boolean> => {
  const handle = await open(name, 'r').catch(() => undefined)
  await handle?.close()
  return handle !== undefined
}

const readArgs = (args: readonly string[]) => {
  try {
    const { positionals, values } = parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true })
    const [file, ...more] = positionals
    return file === undefined || more.length > 0 ? 'Name one file.' : { file, values }
  } catch (error) {
    return (error as Error).message
  }
}

const verifyFile = async (
  file: string,
  more: Omit<Parameters<typeof verifyRecord>[1], 'sha256' | 'hashFile' | 'verify'>,
): Promise<Verdict> => {
  const handle = await open(file, 'r')
  try {
    const { size } = await handle.stat()
    const reader: Reader = {
      size,
      read: async (offset, length) => {
        const most = Math.max(0, Math.min(length, size - offset))
        const buffer = new Uint8Array(most)
        const { bytesRead } = await handle.read(buffer, 0, most, offset)
        return buffer.subarray(0, bytesRead)
      },
    }
    return await verifyRecord(reader, {
      sha256,
      hashFile,
      verify: verifySignature,
      readPdfText,
      readTimestamp: timestampReader(webcrypto as Crypto),
      ...more,
    })
  } finally {
    await handle.close()
  }
}

/** Whatever a damaged file calls itself, one finding is one line. */
const oneLine = (text: string): string => text.replaceAll(/\p{C}/gu, '?')

const sentence = ({ code, file, detail }: Finding): string =>
  oneLine(`${file === '-' ? 'The record' : file}: ${detail} (${code}).`)

const KEY_SENTENCES: Readonly<Record<Anchor, string>> = {
  key: 'It was checked with the key that you gave.',
  since:
    'It was checked with the record’s own key, and against the slip or the time stamp from elsewhere: a log that somebody made anew since then would not fit it.',
  none: 'It was checked with the record’s own key alone. A log that somebody made anew as a whole, with its key, can’t be told from the first that way: get the key from elsewhere and give it with --key, or give a witness slip with --slip.',
}

const stampSentence = ({ is, size, at, authority, rootedIn, upTo }: ToldStamp): string => {
  if (is !== 'holds' || at === undefined) return `Time stamp over the log at size ${size}: it does not hold.`
  const trust =
    rootedIn === 'given'
      ? 'Its certificates lead to one that you gave.'
      : 'Its certificates lead as far as the stamp brings them; give the authority’s own with --tsa-ca.'
  return oneLine(
    `Time stamp of ${authority}, ${toUtcTime(at)}: entries 1 to ${upTo} were in the log by then, and have not been changed or removed since. ${trust}`,
  )
}

const tell = (file: string, verdict: Verdict): string[] => {
  const { holds, findings, keySource, checked, stamps } = verdict
  const failures = findings.filter(isFailure).length
  const things = failures === 1 ? 'One thing' : `${failures} things`
  return [
    ...findings.map(sentence),
    `Checked: files ${checked.files}, entries ${checked.entries} of ${checked.leaves}, quoted from the company’s affairs ${checked.quoted}, authors ${checked.authors}, earlier checkpoints ${checked.earlier}, photos ${checked.photos}, slips ${checked.slips}, time stamps ${stamps.length}.`,
    ...stamps.map(stampSentence),
    ...(checked.withheld.length > 0
      ? [`Withheld, but in their places: entries ${checked.withheld.join(', ')}.`]
      : []),
    ...(checked.figures === 'compared' ? [] : ['The figures could not be worked out again.']),
    ...(checked.pdf === 'compared' ? [] : ['The page’s text could not be compared.']),
    keySource === 'none' ? 'There was no key to check it with.' : KEY_SENTENCES[anchorOf(verdict)],
    holds
      ? `${file} holds: every file, entry, signature and figure in it fits the log that signed it.`
      : `${file} does not hold: ${things} failed.`,
  ]
}
