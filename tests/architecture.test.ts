import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseSync } from 'oxc-parser'
import { expect, test } from 'vitest'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const SOURCE = /\.(?:ts|tsx|js)$/

/** Which rooms a room may import from, and which packages. The first row whose room begins the path counts. */
const WALLS: readonly {
  room: string
  rooms: readonly string[]
  npm: readonly (string | RegExp)[] | 'any'
}[] = [
  { room: 'api/domain/', rooms: ['api/domain/'], npm: ['zod/mini', 'temporal-polyfill'] },
  { room: 'api/contract/', rooms: ['api/contract/', 'api/domain/'], npm: ['zod/mini'] },
  { room: 'api/verify/page/', rooms: ['api/verify/', 'api/domain/'], npm: 'any' },
  { room: 'api/verify/timestamp/', rooms: ['api/verify/', 'api/domain/'], npm: ['pkijs', 'asn1js'] },
  { room: 'api/verify/', rooms: ['api/verify/', 'api/domain/'], npm: [] },
  { room: 'web/sync/', rooms: ['web/sync/', 'api/domain/', 'api/contract/'], npm: ['zod/mini'] },
  { room: 'web/', rooms: ['web/', 'api/domain/', 'api/contract/', 'api/verify/'], npm: 'any' },
  {
    room: 'db/',
    rooms: ['db/', 'api/domain/'],
    npm: ['drizzle-orm', /^drizzle-orm\//, 'postgres', /^node:/],
  },
  {
    room: 'api/server/',
    rooms: ['api/server/', 'api/domain/', 'api/contract/', 'api/verify/', 'db/'],
    npm: 'any',
  },
  { room: 'api/cli/', rooms: ['api/', 'db/', 'seeds/'], npm: 'any' },
  { room: 'seeds/', rooms: ['seeds/', 'api/', 'web/sync/'], npm: 'any' },
]

/** Rooms in which clock, chance, timers and network are passed in: a simulator runs them as shipped. */
const NO_SENSES = [
  'api/domain/',
  'api/contract/',
  'api/verify/',
  'web/sync/',
  'api/server/log/',
  'db/memory/',
]
const SENSES =
  /\b(?:Date\.now|new Date|Math\.random|setTimeout|setInterval|setImmediate|performance\.|crypto\.|globalThis\.|fetch\(|localStorage|indexedDB|navigator\.|window\.|document\.)/

const filesIn = (folder: string): string[] =>
  readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && SOURCE.test(entry.name))
    .map((entry) => path.relative(ROOT, path.join(entry.parentPath, entry.name)))
    .filter((file) => !file.includes('node_modules') && !/^(?:web|api\/verify\/page)\/dist/.test(file))

const FILES = ['api', 'web', 'db', 'seeds'].flatMap(filesIn)

const importsOf = (file: string): string[] => {
  const { module } = parseSync(file, readFileSync(path.join(ROOT, file), 'utf8'))
  return [
    ...module.staticImports.map((i) => i.moduleRequest.value),
    ...module.staticExports.flatMap((e) =>
      e.entries.flatMap((n) => (n.moduleRequest ? [n.moduleRequest.value] : [])),
    ),
    ...module.dynamicImports.map((i) =>
      readFileSync(path.join(ROOT, file), 'utf8')
        .slice(i.moduleRequest.start, i.moduleRequest.end)
        .replaceAll(/['"`]/g, ''),
    ),
  ]
}

const allowed = (name: string, list: readonly (string | RegExp)[] | 'any'): boolean =>
  list === 'any' || list.some((one) => (typeof one === 'string' ? one === name : one.test(name)))

test('each room imports only from the rooms and packages that the plan allows it', () => {
  const wrong = FILES.flatMap((file) => {
    const wall = WALLS.find(({ room }) => file.startsWith(room))
    if (!wall) return [`${file} is in no room`]
    return importsOf(file).flatMap((name) => {
      if (!name.startsWith('.')) return allowed(name, wall.npm) ? [] : [`${file} imports ${name}`]
      const target = path.normalize(path.join(path.dirname(file), name))
      return wall.rooms.some((room) => target.startsWith(room)) || file.endsWith('.config.ts')
        ? []
        : [`${file} imports ${target}`]
    })
  })
  expect(wrong).toEqual([])
})

test('clocks, chance, timers and network are passed in where a simulator must run the code as shipped', () => {
  // The checker's page is an edge: it stands in a browser, and hands its senses in.
  const inside = (file: string): boolean =>
    NO_SENSES.some((room) => file.startsWith(room)) && !file.startsWith('api/verify/page/')
  const wrong = FILES.filter(inside).flatMap((file) =>
    readFileSync(path.join(ROOT, file), 'utf8')
      .split('\n')
      .flatMap((line, i) => {
        const code = line.replace(/\/\/.*$/, '').replace(/^\s*\/?\*.*$/, '')
        return SENSES.test(code) ? [`${file}:${i + 1} ${line.trim()}`] : []
      }),
  )
  expect(wrong).toEqual([])
})

test('only log/bytes turns entries into text and back', () => {
  // Messages between phone and server are JSON too; these files read and write those.
  const messages = ['api/domain/log/bytes.ts', 'web/sync/answer.ts', 'web/sync/sign-in.ts']
  const rooms = ['api/domain/', 'web/sync/', 'api/server/log/', 'db/log-store/']
  const wrong = FILES.filter(
    (file) => rooms.some((room) => file.startsWith(room)) && !messages.includes(file),
  ).filter((file) => /JSON\.(?:parse|stringify)/.test(readFileSync(path.join(ROOT, file), 'utf8')))
  expect(wrong).toEqual([])
})

test('the top of the tree holds the rooms that the plan names and the few files that tools need', () => {
  const folders = readdirSync(ROOT, { withFileTypes: true })
    .filter(
      (entry) =>
        entry.isDirectory() &&
        !entry.name.startsWith('.') &&
        !['node_modules', 'data', 'demo-data'].includes(entry.name),
    )
    .map((entry) => entry.name)
  expect(folders.sort()).toEqual(['api', 'db', 'seeds', 'tests', 'web'])
})
