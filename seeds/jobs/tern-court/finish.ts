import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { english, spanish } from '../../step.ts'
import { type DeviceName, DRIVE, LANDING, PATIO, pour, type TernStep, WALK } from './site.ts'

type Finish = BodyOf<'finish.done'>

const LOAD_1_AREA = { parts: [DRIVE], where: 'load 1: garage to about 24.6 ft' } as const
const REST = {
  parts: [DRIVE, WALK, LANDING],
  where: 'load 2: drive from about 24.6 ft, walk, landing',
} as const
const ALL_PATIO = { parts: [PATIO] } as const
type Area = { readonly parts: readonly string[]; readonly where?: string }

const step = (
  clock: string,
  name: Finish['step'],
  phase: NonNullable<Finish['phase']> | undefined,
  { parts, where }: Area,
  on: DeviceName = 'marisol',
): TernStep => ({
  on,
  at: pour(clock),
  kind: 'finish.done',
  body: { step: name, phase, parts: [...parts], where },
})

const cure = (clock: string, { parts, where }: Area): TernStep => ({
  on: 'marisol',
  at: pour(clock),
  kind: 'cure.applied',
  body: { parts: [...parts], where },
})

const remark = (clock: string, words: ReturnType<typeof english>): TernStep => ({
  on: 'marisol',
  at: pour(clock),
  kind: 'remark.made',
  body: { remark: words },
})

/** From strike-off to the cure, by area. No joints of the patio: on purpose, nobody logged them. */
export const FINISH: readonly TernStep[] = [
  step('07:45', 'strike-off', 'start', LOAD_1_AREA, 'curt'),
  step('08:22', 'float', 'end', LOAD_1_AREA),
  remark('08:23', spanish('Beto: «Ya le pasamos la llana grande.»')),
  remark('08:40', english('She is bleeding, leave it alone.')),
  {
    on: 'curt',
    at: pour('09:05'),
    kind: 'cover.placed',
    body: {
      what: 'wet-cloth',
      change: 'on',
      parts: [DRIVE],
      where: 'wet burlap on the open edge, about 24 1/2 ft from the garage',
    },
  },
  {
    on: 'curt',
    at: pour('09:05'),
    photo: 'edge-burlap',
    shows: 'edge',
    part: DRIVE,
    where: 'about 24 1/2 ft',
  },
  step('09:47', 'strike-off', 'start', REST, 'curt'),
  step('10:30', 'float', 'end', REST),
  step('11:05', 'bleed-water-gone', undefined, LOAD_1_AREA, 'curt'),
  step('11:10', 'edging', 'start', LOAD_1_AREA, 'curt'),
  step('11:20', 'float', 'end', ALL_PATIO),
  step('12:20', 'broom', 'end', LOAD_1_AREA),
  { on: 'marisol', at: pour('12:22'), photo: 'broom-drive', shows: 'surface', part: DRIVE, where: 'load 1' },
  cure('12:35', LOAD_1_AREA),
  { on: 'marisol', at: pour('12:36'), photo: 'cure-sheen', shows: 'cure', part: DRIVE, where: 'load 1' },
  step('12:40', 'bleed-water-gone', undefined, REST),
  step('12:45', 'edging', 'start', REST),
  step('13:05', 'jointing', 'start', { parts: [WALK, LANDING] }),
  step('13:30', 'jointing', 'end', { parts: [WALK, LANDING] }),
  step('13:45', 'broom', 'end', REST),
  { on: 'marisol', at: pour('13:47'), photo: 'broom-walk', shows: 'surface', part: WALK },
  step('14:05', 'bleed-water-gone', undefined, ALL_PATIO),
  cure('14:10', REST),
  remark('14:11', spanish('Beto: «Ya le pusimos curador al resto del drive y a la banqueta.»')),
  step('14:50', 'broom', 'end', ALL_PATIO),
  cure('15:15', ALL_PATIO),
]
