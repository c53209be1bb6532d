import { given } from '../../step.ts'
import { DRIVE, LOAD_1, pour, type TernStep } from './site.ts'

const next = (clock: string): string => `2026-04-22 ${clock}`
const blankets = { what: 'blankets', parts: [DRIVE] } as const

/** One night under blankets, the saw, and the breaks. Later nights are not recorded, on purpose. */
export const AFTERWARDS: readonly TernStep[] = [
  {
    on: 'curt',
    at: pour('18:10'),
    kind: 'cover.placed',
    body: { ...blankets, parts: [DRIVE], change: 'on' },
  },
  { on: 'curt', at: pour('18:10'), photo: 'blankets', shows: 'cover', part: DRIVE },
  {
    on: 'curt',
    at: pour('18:11'),
    kind: 'temperature.measured',
    body: { of: 'air', temperature: given('58', 'degF') },
  },
  {
    on: 'curt',
    at: next('07:00'),
    kind: 'cover.placed',
    body: { ...blankets, parts: [DRIVE], change: 'off' },
  },
  {
    on: 'curt',
    at: next('07:00'),
    kind: 'temperature.measured',
    body: { of: 'surface', part: DRIVE, temperature: given('52', 'degF') },
  },
  {
    on: 'curt',
    at: next('07:10'),
    kind: 'joint.sawn',
    body: { phase: 'start', depth: given('1 1/4', 'in'), spacing: given('10', 'ft'), parts: [DRIVE] },
  },
  { on: 'curt', at: next('08:20'), kind: 'joint.sawn', body: { phase: 'end', parts: [DRIVE] } },
  {
    on: 'office',
    at: '2026-04-28 16:40',
    kind: 'strength.reported',
    body: { load: LOAD_1, days: '7', breaks: [given('3620', 'psi')] },
  },
  {
    on: 'office',
    at: '2026-05-19 15:10',
    kind: 'strength.reported',
    body: { load: LOAD_1, days: '28', breaks: [given('5010', 'psi'), given('5090', 'psi')] },
  },
]
