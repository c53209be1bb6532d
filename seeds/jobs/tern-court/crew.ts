import type { Scenario } from '../../build.ts'
import { type DeviceName, type Person, pour } from './site.ts'

type Tern = Scenario<DeviceName, Person>

export const COMPANY = 'Brindlefork Flatwork LLC'

/** Curt owns it and runs the pour; Marisol finishes and tests; Beto finishes and speaks Spanish; Teddy is in his first season. */
export const PEOPLE: Tern['people'] = [
  { person: 'curt', name: 'Curt', role: 'owner' },
  { person: 'marisol', name: 'Marisol', role: 'crew' },
  { person: 'beto', name: 'Beto', role: 'crew' },
  { person: 'wade', name: 'Wade', role: 'crew' },
  { person: 'teddy', name: 'Teddy', role: 'crew' },
]

/** Two phones at the forms, and the computer at home. What the others say is logged on one of the phones, as their words. */
export const DEVICES: Tern['devices'] = [
  { device: 'curt', person: 'curt', use: 'phone' },
  { device: 'marisol', person: 'marisol', use: 'phone' },
  { device: 'office', person: 'curt', use: 'office' },
]

/** Behind the house, at the patio, there is no network. */
export const OFFLINE: Tern['offline'] = [{ device: 'marisol', from: pour('10:44'), to: pour('11:24') }]

/** Marisol's field-testing certificate. */
export const CERTIFICATE = 'FT-20417'
