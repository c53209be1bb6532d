import type { Problem } from '../../domain/result.ts'
import type { Calculation } from './calculation.ts'

type Evidence = Readonly<Record<string, string | number>>

const FIXED: Readonly<Record<string, (at: string, e: Evidence) => string>> = {
  'number-unreadable': (at, { text }) =>
    `${at}: “${text}” is no number that I can read. Write it like 4, 4.25, 4-1/4 or 12ft6in.`,
  'unit-missing': (at, { text, units }) =>
    `${at}: “${text}” has no unit, and none is guessed. Units: ${units}.`,
  'unit-other': (at, { text, units }) => `${at}: “${text}” has no unit that fits. Units: ${units}.`,
  'not-known': (at, { given, known }) => `${at}: “${given}” is not one of: ${known}.`,
  'not-together': (at, { given, known }) => `${at}: “${given}” should be ${known}, with @ between.`,
  'time-unreadable': (at, { text }) =>
    `${at}: “${text}” is no time. Write it like 2026-04-21T08:21, or with its offset.`,
  'time-skipped': (at, { text, zone }) =>
    `${at}: the clocks in ${zone} skipped ${text} that night. Write it with its offset.`,
  'time-doubled': (at, { text, first, second }) =>
    `${at}: the clocks showed ${text} twice that night. Write which: ${text}${first} or ${text}${second}.`,
  'zone-unknown': (at, { zone }) =>
    `${at}: “${zone}” is no zone of the IANA database, such as America/Chicago.`,
  backwards: (at, { from, until }) => `${at}: ${until} is earlier than ${from}.`,
  'no-station': (at, { given }) => `${at}: it should begin with a station of four letters, not “${given}”.`,
  'no-time': (at, { given }) => `${at}: after the station comes a time like 240156Z, not “${given}”.`,
  'no-report': (at) => `${at}: nothing in it could be read.`,
  'not-there': (at) => `${at}: the station sent no report (NIL).`,
}

/** A sentence for a problem: which field, what was given, and what it may be. */
export const sentenceOf = (problem: Problem, { fields }: Calculation): string => {
  const { code, evidence = {} } = problem
  const at = place(problem.at)
  const field = fields[problem.at.split('/')[1] ?? '']
  if (code === 'missing')
    return field
      ? `${at} is missing: ${field.says}. It takes ${field.takes}.`
      : `${at} is missing${evidence.least === undefined ? '' : `: ${evidence.least} to ${evidence.most}`}.`
  if (code === 'out-of-range') return `${at} ${rangeOf(evidence)}`
  if (code === 'contradiction')
    return `${at} can’t be so${evidence.given === undefined ? '' : `: ${evidence.given}`}${evidence.below === undefined ? '' : `; it must be below ${evidence.below}`}.`
  return FIXED[code]?.(at, evidence) ?? `${at}: ${code}.`
}

const rangeOf = ({ given, least, most, known }: Evidence): string => {
  const is = given === undefined ? 'lies outside' : `is ${given}`
  if (known !== undefined) return `${is} the table, which has: ${known}.`
  return `${is}, and can lie from ${least} to ${most}.`
}

/** `/additions/0/in-drum` as `additions 1, in-drum`. */
const place = (at: string): string =>
  at
    .split('/')
    .slice(1)
    .map((part) => (/^\d+$/.test(part) ? String(Number(part) + 1) : part))
    .join(' ')
    .replace(/ (\d+) (.+)$/, ' $1, $2')
