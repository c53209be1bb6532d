import { english, given } from '../../step.ts'
import { DRIVE, LANDING, PATIO, pour, type TernStep, WALK } from './site.ts'

const on = 'curt'

/** Looked at and measured before the first truck: what can't be looked at again. */
export const BEFORE: readonly TernStep[] = [
  { on, at: pour('06:31'), photo: 'base-drive', shows: 'base', part: DRIVE },
  { on, at: pour('06:32'), kind: 'base.checked', body: { what: 'base', found: 'in-order', part: DRIVE } },
  { on, at: pour('06:33'), photo: 'base-walk', shows: 'base', part: WALK },
  { on, at: pour('06:33'), kind: 'base.checked', body: { what: 'base', found: 'in-order', part: WALK } },
  { on, at: pour('06:34'), kind: 'base.checked', body: { what: 'base', found: 'in-order', part: LANDING } },
  { on, at: pour('06:36'), photo: 'base-patio', shows: 'base', part: PATIO },
  { on, at: pour('06:36'), kind: 'base.checked', body: { what: 'base', found: 'in-order', part: PATIO } },
  { on, at: pour('06:38'), kind: 'base.checked', body: { what: 'forms', found: 'in-order' } },
  {
    on,
    at: pour('06:39'),
    kind: 'base.checked',
    body: { what: 'isolation', found: 'in-order', remark: english('Strip along the garage and the house.') },
  },
  ...depth('06:41', DRIVE, '5 1/4', 'at the garage'),
  { on, at: pour('06:41'), photo: 'depth-garage', shows: 'depth', part: DRIVE, where: 'at the garage' },
  ...depth('06:43', DRIVE, '5', '20 ft from the garage'),
  ...depth('06:44', DRIVE, '5', 'at the street'),
  { on, at: pour('06:44'), photo: 'depth-street', shows: 'depth', part: DRIVE, where: 'at the street' },
  ...depth('06:45', WALK, '4', 'half way'),
  ...depth('06:46', LANDING, '4', 'at the step'),
  ...depth('06:47', PATIO, '4', 'in the middle'),
  { on, at: pour('06:48'), photo: 'level', shows: 'level', part: DRIVE, where: 'garage end' },
  {
    on,
    at: pour('06:49'),
    kind: 'base.checked',
    body: { what: 'level', found: 'in-order', part: DRIVE, remark: english('The forms fall to the street.') },
  },
  {
    on,
    at: pour('06:50'),
    kind: 'temperature.measured',
    body: { of: 'air', temperature: given('44', 'degF') },
  },
  {
    on,
    at: pour('06:50'),
    kind: 'remark.made',
    body: { remark: english('Barely any wind, by feel.') },
  },
]

function depth(clock: string, part: string, inches: string, where: string): TernStep[] {
  return [{ on, at: pour(clock), kind: 'depth.measured', body: { depth: given(inches, 'in'), part, where } }]
}
