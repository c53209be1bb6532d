import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Calculation } from '../../api/cli/calc/calculation.ts'
import { CATALOGUE } from '../../api/cli/calc/catalogue.ts'
import { run } from '../../api/cli/calc.ts'
import { readMeasure } from '../../api/domain/trade/read-measure.ts'
import { showNumber } from '../../api/domain/units.ts'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

type Told = { readonly code: number; readonly out: string; readonly err: string }
const calc = async (...words: string[]): Promise<Told> => {
  const out: string[] = []
  const err: string[] = []
  const code = await run(words, { out: (line) => out.push(line), err: (line) => err.push(line) })
  return { code, out: out.join('\n'), err: err.join('\n') }
}
/** The words of an example, a quoted one as a shell would pass it. */
const wordsOf = (example: string): string[] =>
  [...example.matchAll(/[^\s"]+(?:"[^"]*")?/g)].map(([word]) => word.replaceAll('"', ''))

test('[calc] alone it lists all that it can work out', async () => {
  const { code, out } = await calc()
  expect(code).toBe(0)
  for (const { name, says } of CATALOGUE)
    expect(out).toMatch(new RegExp(`^  ${name} +${says.slice(0, 20)}`, 'm'))
  expect(new Set(CATALOGUE.map(({ name }) => name)).size).toBe(CATALOGUE.length)
})

test('[calc] the rate of a hot day in both systems, with its formula, source and threshold', async () => {
  const { code, out } = await calc('evaporation', 'concrete=87F', 'air=80F', 'humidity=50%', 'wind=12mph')
  expect(code).toBe(0)
  expect(out).toContain('rate: 0.243 lb/ft²/h  (1.189 kg/m²/h)')
  expect(out).toContain('precautions from: 0.2 lb/ft²/h')
  expect(out).toMatch(/Source: Uno, ACI Materials Journal 95, 1998/)
  expect(out).toMatch(/Source: UFGS 03300N and ACI 305R/)
})

test('[calc] metric input is the same day', async () => {
  const us = JSON.parse(
    (await calc('evaporation', 'concrete=86F', 'air=77F', 'humidity=50%', 'wind=10mph', '--json')).out,
  )
  const si = JSON.parse(
    (await calc('evaporation', 'concrete=30C', 'air=25C', 'humidity=50%', 'wind=16.09344km/h', '--json')).out,
  )
  expect(si.results[0].value).toBeCloseTo(us.results[0].value, 12)
})

describe('[calc] each calculation', () => {
  for (const one of CATALOGUE) {
    const words = wordsOf(one.example)

    test(`[calc] ${one.name}: its example gives figures with a source`, async () => {
      const { code, out, err } = await calc(one.name, ...words)
      expect(err).toBe('')
      expect(code).toBe(0)
      expect(out).toMatch(/^Source: ./m)
      expect(out).not.toMatch(/NaN|Infinity|undefined|null|\[object/)
      expect(out).not.toMatch(/\b(?:compliant|violations?|faults?|safe)\b/i)
    })

    test(`[calc] ${one.name}: --json is one line of JSON with the sources`, async () => {
      const { out } = await calc(one.name, ...words, '--json')
      const told = JSON.parse(out)
      expect(told.calc).toBe(one.name)
      expect(told.results.length).toBeGreaterThan(0)
      expect(told.sources.length).toBeGreaterThan(0)
      for (const result of told.results)
        if (typeof result.value === 'number') expect(Number.isFinite(result.value)).toBe(true)
    })

    test(`[calc] ${one.name}: --help names every field, and shows the example`, async () => {
      const { code, out } = await calc(one.name, '--help')
      expect(code).toBe(0)
      for (const field of Object.keys(one.fields)) expect(out).toContain(`  ${field}=`)
      expect(out).toContain(one.example)
    })

    test(`[calc] ${one.name}: a field that is lacking is named with what it takes`, async () => {
      for (const [name, field] of Object.entries(one.fields)) {
        if (field.optional) continue
        const { code, err } = await calc(one.name, ...words.filter((word) => !word.startsWith(`${name}=`)))
        expect(code, name).toBe(2)
        expect(err.split('\n')[0]).toContain(`${name} is missing: `)
        expect(err).toContain(field.takes)
      }
    })

    test(`[calc] ${one.name}: a number far outside is refused by its field and range`, async () => {
      for (const [name, far] of farOut(one, words)) {
        const { code, out, err } = await calc(
          one.name,
          ...words.map((word) => (word.startsWith(`${name}=`) ? far : word)),
        )
        expect(code, far).not.toBe(0)
        expect(out, far).toBe('')
        expect(err, far).toMatch(new RegExp(`^${name}`))
      }
    })
  }
})

/** Each plain measure of an example a million times as large. */
const farOut = ({ fields }: Calculation, words: readonly string[]): [string, string][] =>
  words.flatMap((word) => {
    const [, name = '', number = '', unit = ''] = /^([^=]+)=(-?[\d.]+)([^\d,@-][^,@]*)?$/.exec(word) ?? []
    const ranged = fields[name]?.takes.includes(' to ') === true
    return number !== '' && ranged ? [[name, `${name}=9999999${unit}`] as [string, string]] : []
  })

const ODD: readonly (readonly [string, string[], number, RegExp])[] = [
  ['a calculation that is none', ['strenght'], 2, /no calculation “strenght”/],
  ['a field that is none', ['slab', 'lenght=4ft'], 2, /“lenght” is not one of: length, width, thickness/],
  ['a word without =', ['slab', '40ft'], 2, /“40ft” is not one of/],
  ['no unit', ['slab', 'length=40'], 2, /no unit, and none is guessed/],
  ['a unit of something else', ['slab', 'length=40psi'], 2, /no unit that fits/],
  ['no number', ['slab', 'length=long'], 2, /no number that I can read/],
  ['a field twice', ['slab', 'length=4ft', 'length=5ft'], 2, /given twice/],
  ['a choice that is none', ['evaporation', 'form=guess'], 2, /not one of: uno-us/],
  ['a flag that is none', ['slab', '--yaml'], 2, /no --yaml/],
  ['parts that don’t belong together', ['parts', 'additions=12gal'], 2, /water@in-drum/],
  ['a part of a list', ['parts', 'additions=12gal@8yd,8lb@5yd'], 2, /additions 2, water: “8lb”/],
  [
    'a time that came twice',
    ['minutes', 'from=2026-11-01T01:30', 'until=2026-11-01T05:00', 'zone=America/Chicago'],
    1,
    /twice that night/,
  ],
  [
    'an end before its beginning',
    ['minutes', 'from=2026-06-01T09:00-05:00', 'until=2026-06-01T08:00-05:00'],
    1,
    /earlier than/,
  ],
  ['an inner ring that is the larger', ['ring', 'outer=10ft', 'inner=12ft', 'thickness=4in'], 1, /below/],
  ['a stone that is no row', ['air', 'stone=5/8in'], 1, /3\/8, 1\/2, 3\/4/],
]
for (const [name, words, code, says] of ODD)
  test(`[calc] ${name}: one sentence says what to do`, async () => {
    const told = await calc(...words)
    expect(told.out).toBe('')
    expect(told.err).toMatch(says)
    expect(told.code).toBe(code)
  })

test('[calc] a problem is JSON too where JSON was asked for', async () => {
  const { code, out } = await calc('slab', 'length=40ft', 'width=20ft', 'thickness=900in', '--json')
  expect(code).toBe(2)
  expect(JSON.parse(out)).toMatchObject({
    problem: { code: 'out-of-range', at: '/thickness', evidence: { most: '144 in' } },
  })
})

/** Any number in the range of each measure; the rest as in the example. */
const anyWords = ({ fields, example }: Calculation) =>
  fc.tuple(
    ...wordsOf(example).map((word) => {
      const name = word.slice(0, word.indexOf('='))
      const range = fields[name]?.range
      // A list or a tuple stays as it is: its range is that of its parts.
      if (!range || /[,@]/.test(word)) return fc.constant(word)
      const float = ({ n, d }: { n: bigint; d: bigint }) => Number(n) / Number(d)
      const [least, most] = [float(range.least), float(range.most)]
      const unit = range.least.unit === 'one' ? '' : range.least.unit
      return fc
        .oneof(fc.constant(least), fc.constant(most), fc.double({ min: least, max: most, noNaN: true }))
        .map((x) => `${name}=${Math.min(most, Math.max(least, Number(x.toFixed(3)))).toFixed(3)}${unit}`)
    }),
  )

for (const one of CATALOGUE)
  test(`[calc] ${one.name}: within its ranges it gives finite figures, or says which two can't be so`, async () => {
    await fc.assert(
      fc.asyncProperty(anyWords(one), async (words) => {
        const { out } = await calc(one.name, ...words, '--json')
        const told = JSON.parse(out, (_, value) => {
          if (typeof value === 'number') expect(Number.isFinite(value), words.join(' ')).toBe(true)
          return value
        })
        if (told.problem)
          expect(['contradiction', 'out-of-range'], `${words.join(' ')} ${out}`).toContain(told.problem.code)
      }),
      { seed: 71340, numRuns: 60 },
    )
  })

test('[calc] no words make it throw', async () => {
  const word = fc.oneof(fc.string(), fc.stringMatching(/^[a-z-]{1,9}=[ -~]{0,12}$/))
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...CATALOGUE.map(({ name }) => name)),
      fc.array(word, { maxLength: 4 }),
      async (name, words) => {
        const { code, out } = await calc(name, ...words)
        expect([0, 1, 2]).toContain(code)
        expect(out).not.toContain('NaN')
      },
    ),
    { seed: 71340, numRuns: 400 },
  )
})

const WRITTEN: readonly (readonly [string, 'length' | 'temperature' | 'volume', string])[] = [
  ['4 1/2 in', 'length', '9/2 in'],
  ['4-1/2in', 'length', '9/2 in'],
  ['4½"', 'length', '9/2 in'],
  ['12\'6"', 'length', '150/1 in'],
  ['12\' 6-1/2"', 'length', '301/2 in'],
  ['12 ft 6 in', 'length', '150/1 in'],
  ['12ft6in', 'length', '150/1 in'],
  ['12.5 ft', 'length', '25/2 ft'],
  ['-5C', 'temperature', '-5/1 degC'],
  ['87 °F', 'temperature', '87/1 degF'],
  ['8.25 yards', 'volume', '33/4 yd3'],
  ['8 YD3', 'volume', '8/1 yd3'],
]
for (const [text, dimension, exact] of WRITTEN)
  test(`[units] “${text}” is read as ${exact}`, () => {
    const read = readMeasure(text, dimension)
    expect(read.ok && `${read.value.n}/${read.value.d} ${read.value.unit}`).toBe(exact)
  })

test('[units] feet and inches that can’t be so are refused, and nothing makes the reader throw', () => {
  for (const text of ['12ft 6psi', '-12ft 6in', '12ft 6', '12 6in', '1/0in', 'ft', '1..2ft', '12ft 6in 3in'])
    expect(readMeasure(text, 'length').ok, text).toBe(false)
  fc.assert(
    fc.property(fc.string(), (text) => void readMeasure(text, 'length')),
    { seed: 71340 },
  )
})

test('[units] what is shown of inches reads back as the same inches', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 99_999 }), (eighths) => {
      const read = readMeasure(`${showNumber({ n: BigInt(eighths), d: 8n }, 3)}in`, 'length')
      expect(read.ok && read.value.n * 8n === BigInt(eighths) * read.value.d).toBe(true)
    }),
    { seed: 71340 },
  )
})

/** Functions that work on what another has given, or that a command would only repeat. */
const NOT_A_COMMAND: readonly string[] = [
  'editionsFrom', // the choices that every command lists
  'boxFeet3', // by slab
  'ratioFromGallons', // by ratiosByPart
  'leastSingleTest', // by strengthAcceptance
  'freeMinutes', // by unloadingCharge
  'needsCheckTest', // a yes or no of any finding
  'roundAmount', // by each sum
  'sumVolumes',
  'sumAmounts',
  'readRemarks', // by readMetar
]
const MACHINERY = [
  'asked.ts',
  'measure.ts',
  'unit-table.ts',
  'sources.ts',
  'finding.ts',
  'ranges.ts',
  'read-measure.ts',
]

test('[calc] every function of the trade is at the terminal', () => {
  const folder = `${ROOT}api/domain/trade/`
  const functions = readdirSync(folder)
    .filter((name) => !MACHINERY.includes(name))
    .flatMap((name) =>
      [...readFileSync(folder + name, 'utf8').matchAll(/^export const ([a-z]\w+) = /gm)].map(
        ([, found]) => found!,
      ),
    )
  const catalogue = readdirSync(`${ROOT}api/cli/calc`)
    .map((name) => readFileSync(`${ROOT}api/cli/calc/${name}`, 'utf8'))
    .join('\n')
  const lacking = functions.filter(
    (name) => !NOT_A_COMMAND.includes(name) && !new RegExp(`\\b${name}\\(`).test(catalogue),
  )
  expect(lacking).toEqual([])
  expect(functions.length).toBeGreaterThan(70)
})

test('[calc] screedbook itself knows it', () => {
  const { status, stdout } = spawnSync(
    process.execPath,
    ['api/cli/screedbook.js', 'calc', 'slab', 'length=8ft', 'width=10ft', 'thickness=4in'],
    {
      cwd: ROOT,
      encoding: 'utf8',
      timeout: 60_000,
    },
  )
  expect(stdout).toContain('volume: 0.99 yd³  (0.755 m³)')
  expect(status).toBe(0)
})
