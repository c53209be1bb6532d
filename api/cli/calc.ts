import { fail, ok, type Problem, type Result } from '../domain/result.ts'
import type { Calculation } from './calc/calculation.ts'
import { CATALOGUE } from './calc/catalogue.ts'
import { sentenceOf } from './calc/sentence.ts'
import { answerAsJson, showAnswer } from './calc/show.ts'
import type { Io } from './main.ts'

const USAGE = 'screedbook calc WHAT name=value … [--json]      screedbook calc WHAT --help'

/**
 * Works out one of the trade’s figures. Prints the figures in both unit systems, with their sources. Returns 0 done, 1
 * where the figures can’t be so, 2 where the words are off.
 */
export const run = async (args: readonly string[], io: Io): Promise<number> => {
  const flags = args.filter((arg) => arg.startsWith('--'))
  const [what, ...given] = args.filter((arg) => !arg.startsWith('--'))
  const odd = flags.find((flag) => flag !== '--json' && flag !== '--help')
  if (odd !== undefined) return refuse(io, [`There is no ${odd} here.`, USAGE])
  if (what === undefined || what === 'help') {
    for (const line of listAll()) io.out(line)
    return 0
  }
  const calculation = CATALOGUE.find(({ name }) => name === what)
  if (!calculation) return refuse(io, [`There is no calculation “${what}”. See them all: screedbook calc`])
  if (flags.includes('--help')) {
    for (const line of helpOf(calculation)) io.out(line)
    return 0
  }
  return work(calculation, given, flags.includes('--json'), io)
}

const work = (calculation: Calculation, given: readonly string[], json: boolean, io: Io): number => {
  const tell = (problem: Problem, code: number): number => {
    if (json) io.out(JSON.stringify({ calc: calculation.name, problem }))
    else {
      io.err(sentenceOf(problem, calculation))
      io.err(`For its fields and an example: screedbook calc ${calculation.name} --help`)
    }
    return code
  }
  const values = readFields(calculation, given)
  if (!values.ok) return tell(values.problem, 2)
  const answer = calculation.work(values.value)
  if (!answer.ok) return tell(answer.problem, 1)
  if (json) io.out(answerAsJson(calculation.name, answer.value))
  else for (const line of showAnswer(answer.value)) io.out(line)
  return 0
}

/** Every field once, by its name; a field that is not of this calculation is refused, never ignored. */
const readFields = (
  { fields }: Calculation,
  given: readonly string[],
): Result<Readonly<Record<string, unknown>>> => {
  const values: Record<string, unknown> = {}
  const known = Object.keys(fields).join(', ')
  for (const word of given) {
    const [, name = '', text = ''] = /^([^=]*)=(.*)$/s.exec(word) ?? []
    const field = Object.hasOwn(fields, name) ? fields[name] : undefined
    if (!field) return fail('not-known', `/${name || word}`, { given: name || word, known })
    if (name in values) return fail('contradiction', `/${name}`, { given: 'given twice' })
    const read = field.read(text)
    if (!read.ok) return fail(read.problem.code, `/${name}${read.problem.at}`, read.problem.evidence)
    values[name] = read.value
  }
  for (const [name, field] of Object.entries(fields)) {
    if (name in values) continue
    if (!field.optional) return fail('missing', `/${name}`)
    const usual = field.usual === undefined ? undefined : field.read(field.usual)
    if (usual?.ok) values[name] = usual.value
  }
  return ok(values)
}

const refuse = (io: Io, lines: readonly string[]): number => {
  for (const line of lines) io.err(line)
  return 2
}

const listAll = (): string[] => {
  const groups = [...new Set(CATALOGUE.map((one) => one.group))]
  const wide = Math.max(...CATALOGUE.map(({ name }) => name.length)) + 2
  return [
    USAGE,
    ...groups.flatMap((name) => [
      '',
      name,
      ...CATALOGUE.filter((one) => one.group === name).map((one) => `  ${one.name.padEnd(wide)}${one.says}`),
    ]),
    '',
    'Check a figure against the standard, the contract and the local code before it is relied on.',
  ]
}

const helpOf = ({ name, says, fields, example }: Calculation): string[] => [
  `${name}: ${says}`,
  '',
  ...Object.entries(fields).map(
    ([field, { says: about, takes, optional, usual }]) =>
      `  ${field}=  ${about}. ${takes}${usual === undefined ? (optional ? '; may be left out' : '') : `; ${usual} where left out`}`,
  ),
  '',
  `Example: screedbook calc ${name} ${example}`,
]
