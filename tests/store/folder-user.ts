import { connect } from '../../db/connect/connect.ts'

/**
 * A process that uses a data folder, for tests that need several or kill one: `open`, then one JSON line for each line
 * of its input: `hold`, `found <uuid>`, `companies`, `close`.
 */
const [dataFolder] = process.argv.slice(2)
const say = (what: unknown) => process.stdout.write(`${JSON.stringify(what ?? null)}\n`)

const opened = await connect({ databaseUrl: undefined, dataFolder: dataFolder!, log: () => {} })
say(opened.ok ? { ok: true } : opened)
if (!opened.ok) process.exit(1)
const { stores, hold, close } = opened.value

const answers: Readonly<Record<string, (given: string) => Promise<unknown>>> = {
  hold,
  close,
  companies: () => stores.log.companies(),
  found: (company) => stores.log.transact(company, (tx) => tx.found({ origin: `screedbook/${company}` })),
}

process.stdin.setEncoding('utf8')
for await (const text of process.stdin) {
  for (const line of String(text).trim().split('\n')) {
    const [word = '', given = ''] = line.split(' ')
    say(await answers[word]?.(given))
    if (word === 'close') process.exit(0)
  }
}
