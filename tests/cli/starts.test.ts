import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { newDataFolder, type RunningServer, startServerProcess } from '../kit/server.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const run = (args: readonly string[], env: Record<string, string> = {}) =>
  spawnSync(process.execPath, ['api/cli/screedbook.js', ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    timeout: 60_000,
    env: { ...process.env, ...env },
  })

let data: Awaited<ReturnType<typeof newDataFolder>>
let serving: RunningServer
beforeAll(async () => {
  data = await newDataFolder()
  serving = await startServerProcess({ dataFolder: data.folder })
})
afterAll(async () => {
  await serving.stop()
  await data.remove()
})

const port = () => new URL(serving.url).port
const cases: readonly [string, readonly string[], () => Record<string, string>, RegExp, number][] = [
  [
    'a data folder that is a file',
    ['serve'],
    () => ({ DATA: 'README.md' }),
    /file where a folder is needed: .*README\.md/,
    1,
  ],
  ['a port that is none', ['serve'], () => ({ PORT: 'abc' }), /PORT is abc/, 2],
  [
    'a port in use',
    ['serve'],
    () => ({ PORT: port(), DATA: `${data.folder}/other` }),
    /Something else listens on port/,
    1,
  ],
  [
    'an address of another machine',
    ['serve'],
    () => ({ HOST: '192.0.2.1', DATA: `${data.folder}/other` }),
    /can’t listen at 192\.0\.2\.1/,
    1,
  ],
  [
    'a folder that is being served',
    ['serve'],
    () => ({ PORT: '0', DATA: data.folder }),
    /Another Screedbook \(process \d+\) is serving/,
    1,
  ],
  [
    'a database address that is none',
    ['serve'],
    () => ({ DATABASE_URL: 'nonsense', DATA: `${data.folder}/other` }),
    /No database answers at DATABASE_URL/,
    1,
  ],
  ['words that serve does not take', ['serve', '--help'], () => ({}), /takes no arguments/, 2],
  ['a command that is none', ['pour'], () => ({}), /screedbook COMMAND/, 2],
  [
    'a job that is not there',
    ['export', 'nobody', '--out', 'x.zip'],
    () => ({ DATA: data.folder }),
    /no job nobody/,
    1,
  ],
]

test.each(cases.map(([name, args, env, says, code]) => ({ name, args, env, says, code })))(
  '[start] $name is said in a sentence, without a stack',
  ({ args, env, says, code }) => {
    const { status, stderr } = run(args, env())
    expect(stderr).toMatch(says)
    expect(stderr).not.toMatch(/^\s+at /m)
    expect(status).toBe(code)
  },
)
