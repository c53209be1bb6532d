import type { Taking } from '../../../api/domain/entry/taking.ts'
import { CERTIFICATE, COMPANY } from './crew.ts'
import { local, type People } from './site.ts'

const INSTRUMENTS = {
  cone: 'Slump cone and rod',
  meter: 'Pressure air meter, ours',
  thermometer: 'Dial thermometer, ours',
} as const

/** How Marisol took a reading: she works for the contractor, which the record says. */
export const takenBy = (
  people: People,
  instrument: keyof typeof INSTRUMENTS,
  rest: Pick<Taking, 'point' | 'water'> & { readonly sampled: string; readonly result: string },
): Taking => {
  const { sampled, result, ...more } = rest
  return {
    sampledAt: local(sampled),
    resultAt: local(result),
    ...more,
    taker: { person: people.marisol },
    employer: COMPANY,
    instrument: INSTRUMENTS[instrument],
    certificate: CERTIFICATE,
  }
}
