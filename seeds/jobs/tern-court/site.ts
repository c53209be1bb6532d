import { given, type Step } from '../../step.ts'

export type DeviceName = 'curt' | 'marisol' | 'office'
export type Person = 'curt' | 'marisol' | 'beto' | 'wade' | 'teddy'
export type People = Readonly<Record<Person, string>>
export type TernStep = Step<DeviceName>

export const ZONE = 'America/Chicago'
export const JOB = '019d8d20-7000-7000-8000-00000000ce11'
export const PLACEMENT = '019d8d20-7000-7000-8000-0000000071ac'

/** Parts of the site. */
export const DRIVE = '019d8d20-7000-7000-8000-0000000000a1'
export const WALK = '019d8d20-7000-7000-8000-0000000000a2'
export const LANDING = '019d8d20-7000-7000-8000-0000000000a3'
export const PATIO = '019d8d20-7000-7000-8000-0000000000a4'

/** Loads, in the order in which they came. */
export const LOAD_1 = '019d8d20-7000-7000-8000-0000000010a1'
export const LOAD_2 = '019d8d20-7000-7000-8000-0000000010a2'
export const LOAD_3 = '019d8d20-7000-7000-8000-0000000010a3'

/** 12.35 + 1.73 + 0.59 + 2.77 = 17.43 yd³ as formed. */
export const PARTS = [
  { part: DRIVE, name: 'Drive', length: ft('40'), width: ft('20'), thickness: given('5', 'in') },
  { part: WALK, name: 'Front walk', length: ft('40'), width: ft('3.5'), thickness: given('4', 'in') },
  { part: LANDING, name: 'Front landing', length: ft('12'), width: ft('4'), thickness: given('4', 'in') },
  { part: PATIO, name: 'Patio', length: ft('16'), width: ft('14'), thickness: given('4', 'in') },
]

function ft(text: string) {
  return given(text, 'ft')
}

/** On the day of the pour. */
export const pour = (clock: string): string => `2026-04-21 ${clock}`
/** The same, as an entry's body writes it: the offset then in force at the site. */
export const local = (clock: string): string => `2026-04-21T${clock}-05:00`
