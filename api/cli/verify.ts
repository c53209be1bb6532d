import { open, readFile } from 'node:fs/promises'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { readVerifierKey } from '../domain/log/note.ts'
import { hashFile, sha256, verifySignature } from '../server/senses.ts'
import { type Finding, isFailure } from '../verify/findings.ts'
import type { Reader } from '../verify/reader.ts'
import { type Verdict, verifyRecord } from '../verify/verify.ts'
import type { Io } from './main.ts'
import { readPdfText } from './pdf-text.ts'

const USAGE = 'screedbook verify FILE [--key VKEY] [--slip FILE] [--json]'
const OPTIONS = { key: { type: 'string' }, slip: { type: 'string' }, json: { type: 'boolean' } } as const

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
    const slip =
      values.slip === undefined
        ? undefined
        : { name: path.basename(values.slip), bytes: new Uint8Array(await readFile(values.slip)) }
    const verdict = await verifyFile(file, {
      ...(logKey ? { logKey: logKey.value } : {}),
      ...(slip ? { slip } : {}),
    })
    if (values.json) io.out(JSON.stringify(verdict))
    else for (const line of tell(file, verdict)) io.out(line)
    return verdict.holds ? 0 : 1
  } catch (error) {
    io.err(`${(error as NodeJS.ErrnoException).path ?? file} could not be read: ${(error as Error).message}`)
    return 2
  }
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
    return await verifyRecord(reader, { sha256, hashFile, verify: verifySignature, readPdfText, ...more })
  } finally {
    await handle.close()
  }
}

/** Whatever a damaged file calls itself, one finding is one line. */
const oneLine = (text: string): string => text.replaceAll(/\p{C}/gu, '?')

const sentence = ({ code, file, detail }: Finding): string =>
  oneLine(`${file === '-' ? 'The record' : file}: ${detail} (${code}).`)

const KEY_SENTENCES: Readonly<Record<Verdict['keySource'], string>> = {
  given: 'It was checked with the key that you gave.',
  record:
    'It was checked with the record’s own key alone. A log that somebody made anew as a whole, with its key, can’t be told from the first that way: get the key from elsewhere and give it with --key, or give a witness slip with --slip.',
  none: 'There was no key to check it with.',
}

const tell = (file: string, { holds, findings, keySource, checked }: Verdict): string[] => {
  const failures = findings.filter(isFailure).length
  const things = failures === 1 ? 'One thing' : `${failures} things`
  return [
    ...findings.map(sentence),
    `Checked: files ${checked.files}, entries ${checked.entries} of ${checked.leaves}, quoted from the company’s affairs ${checked.quoted}, authors ${checked.authors}, earlier checkpoints ${checked.earlier}, photos ${checked.photos}, slips ${checked.slips}.`,
    ...(checked.withheld.length > 0
      ? [`Withheld, but in their places: entries ${checked.withheld.join(', ')}.`]
      : []),
    ...(checked.figures === 'compared' ? [] : ['The figures could not be worked out again.']),
    ...(checked.pdf === 'compared' ? [] : ['The page’s text could not be compared.']),
    KEY_SENTENCES[keySource],
    holds
      ? `${file} holds: every file, entry, signature and figure in it fits the log that signed it.`
      : `${file} does not hold: ${things} failed.`,
  ]
}
