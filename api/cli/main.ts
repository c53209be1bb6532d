import { whatTheDiskSaid } from './stands-in-the-way.ts'

/** Where a command prints: results to `out`, all else to `err`. */
export type Io = { readonly out: (line: string) => void; readonly err: (line: string) => void }
export type Command = { readonly run: (args: readonly string[], io: Io) => Promise<number> }

const COMMANDS: Readonly<Record<string, { readonly says: string; readonly load: () => Promise<Command> }>> = {
  serve: {
    says: 'serve                      the log, the phones’ app and the office page',
    load: () => import('./serve.ts'),
  },
  demo: {
    says: 'demo                       the same with an invented job, in a folder of its own',
    load: () => import('./demo.ts'),
  },
  export: {
    says: 'export JOB --out FILE      the record of a job as a ZIP',
    load: () => import('./export.ts'),
  },
  verify: {
    says: 'verify FILE                checks a record and names what fails',
    load: () => import('./verify.ts'),
  },
  calc: {
    says: 'calc WHAT name=value …     the trade’s figures, each with its source',
    load: () => import('./calc.ts'),
  },
  hear: {
    says: 'hear --at TIME FILE        the facts in what was said, one utterance a line',
    load: () => import('./hear.ts'),
  },
}

/** Runs one command; 0 done, 1 not, 2 where the words are off. */
export const main = async (args: readonly string[]): Promise<number> => {
  const io: Io = {
    out: (line) => process.stdout.write(`${line}\n`),
    err: (line) => process.stderr.write(`${line}\n`),
  }
  const [name = '', ...rest] = args
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined
  if (!command) {
    const asked = name === '' || name === 'help' || name === '--help'
    io[asked ? 'out' : 'err'](
      ['screedbook COMMAND', ...Object.values(COMMANDS).map(({ says }) => `  ${says}`)].join('\n'),
    )
    return asked ? 0 : 2
  }
  try {
    return await (await command.load()).run(rest, io)
  } catch (error) {
    const said = whatTheDiskSaid(error)
    if (said === undefined) throw error
    io.err(said)
    return 1
  }
}
