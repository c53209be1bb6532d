import { readFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { readPhrase } from '../domain/phrase/read-phrase.ts'
import { readLocalTime } from '../domain/time.ts'
import type { Io } from './main.ts'

const USAGE = 'screedbook hear --at TIME FILE'
const OPTIONS = { at: { type: 'string' }, unread: { type: 'boolean' } } as const

/**
 * Reads what was said, one utterance a line, and prints the facts of each as one JSON array a line; a line that gives
 * nothing gives []. `--at` is the moment of speech, which relative times (`min_ago`) count from; it is checked and changes no
 * fact. With `--unread` each line is an object with the facts, the words that gave nothing and the question, if there is one.
 * Returns 0, or 2 where the words are off or the file can't be read.
 */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  const asked = readArgs(args)
  if (typeof asked === 'string') {
    io.err(asked)
    io.err(USAGE)
    return 2
  }
  let text: string
  try {
    text = await readFile(asked.file, 'utf8')
  } catch (error) {
    io.err(`${asked.file} could not be read: ${(error as Error).message}`)
    return 2
  }
  for (const line of utterances(text)) {
    const hearing = readPhrase(line)
    io.out(JSON.stringify(asked.unread ? hearing : hearing.facts))
  }
  return 0
}

/** The lines of a file; a line's end at the end of the file begins no further line. */
const utterances = (text: string): string[] => {
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/)
  if (lines.at(-1) === '') lines.pop()
  return lines
}

const readArgs = (args: readonly string[]): string | { file: string; unread: boolean } => {
  try {
    const { positionals, values } = parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true })
    const [file, ...more] = positionals
    if (file === undefined || more.length > 0) return 'Name one file.'
    if (values.at === undefined) return 'Say when it was said: --at 2026-04-21T09:00:00-05:00'
    if (readLocalTime(values.at) === undefined)
      return `--at ${values.at} is no local time with its offset: it looks like 2026-04-21T09:00:00-05:00`
    return { file, unread: values.unread ?? false }
  } catch (error) {
    return (error as Error).message
  }
}
