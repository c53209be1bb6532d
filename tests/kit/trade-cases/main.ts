import { readFileSync } from 'node:fs'
import type { ReferenceCase } from './case.ts'
import { runCase } from './run-case.ts'

// One JSON line a case; 0 where none fails, 1 where one does, 2 where the file is no list of cases.
const [file, ...more] = process.argv.slice(2)
if (file === undefined || more.length > 0) {
  process.stderr.write(
    'npm run -s cases -- FILE: a JSON list of cases {id, inputs, expected, tolerance, basis, …}\n',
  )
  process.exit(2)
}

const readCases = (path: string): ReferenceCase[] | string => {
  try {
    const list: unknown = JSON.parse(readFileSync(path, 'utf8'))
    if (!Array.isArray(list)) return `${path} is no list of cases.`
    const odd = list.findIndex((one) => typeof one?.id !== 'string' || !one.inputs || !one.expected)
    return odd < 0 ? (list as ReferenceCase[]) : `Case ${odd + 1} of ${path} lacks id, inputs or expected.`
  } catch (error) {
    return `${path} could not be read: ${(error as Error).message}`
  }
}

const cases = readCases(file)
if (typeof cases === 'string') {
  process.stderr.write(`${cases}\n`)
  process.exit(2)
}
const outcomes = cases.map(runCase)
for (const one of outcomes) process.stdout.write(`${JSON.stringify(one)}\n`)
process.exitCode = outcomes.some(({ status }) => status === 'fail') ? 1 : 0
