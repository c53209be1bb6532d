import type { Scenario } from '../../build.ts'
import { AFTERWARDS } from './afterwards.ts'
import { BEFORE } from './before.ts'
import { CALLBACK } from './callback.ts'
import { COMPANY, DEVICES, OFFLINE, PEOPLE } from './crew.ts'
import { FINISH } from './finish.ts'
import { loadOne } from './load-1.ts'
import { loadTwo } from './load-2.ts'
import { loadThree } from './load-3.ts'
import { ORDER } from './order.ts'
import { QUIET_HOUR } from './quiet-hour.ts'
import { type DeviceName, JOB, type Person, ZONE } from './site.ts'
import { WEATHER } from './weather.ts'

/**
 * A drive, a walk, a landing and a patio at 418 Tern Court, Wenmark, placed on 21 April 2026 out of three loads, and the
 * call seven months later. People, companies, street and town are invented.
 */
export const TERN_COURT: Scenario<DeviceName, Person> = {
  seed: 'tern court 1',
  zone: ZONE,
  company: COMPANY,
  job: JOB,
  people: PEOPLE,
  devices: DEVICES,
  setUpAt: '2026-04-13 18:30',
  photos: new URL('./photos/', import.meta.url),
  offline: OFFLINE,
  steps: (people) => [
    ...ORDER,
    ...BEFORE,
    ...loadOne(people),
    ...loadTwo(people),
    ...loadThree(people),
    ...FINISH,
    ...QUIET_HOUR,
    ...WEATHER,
    ...AFTERWARDS,
    ...CALLBACK,
  ],
}
