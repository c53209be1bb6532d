import { given } from '../../step.ts'
import { LOAD_3, type People, pour, type TernStep } from './site.ts'
import { takenBy } from './taken.ts'
import { type Printed, ticketOf } from './ticket.ts'

const load = LOAD_3

const PRINTED: Printed = {
  load,
  number: '71371',
  truck: '218',
  driver: 'Ansel',
  loadOfDay: '3',
  yards: '2.50',
  ordered: '18.50',
  delivered: '18.50',
  batched: '10:20',
  printed: '10:22',
  leftPlant: '10:26',
  batchedWater: '73.0',
  mayAdd: '5',
}

/** The balance, for the patio. Marisol has no network back there: what she logs reaches the server at 11:24. */
export const loadThree = (people: People): readonly TernStep[] => {
  const taking = (instrument: 'cone' | 'meter' | 'thermometer', result: string) =>
    takenBy(people, instrument, { sampled: '10:50', result, point: 'first-portion', water: 'none-added' })
  const curt = { person: people.curt }
  return [
    { on: 'curt', at: pour('10:47'), kind: 'load.arrived', body: { load } },
    { on: 'curt', at: pour('10:48'), kind: 'ticket.recorded', body: ticketOf(PRINTED) },
    { on: 'curt', at: pour('10:48'), photo: 'ticket-71371', shows: 'ticket', load },
    { on: 'curt', at: pour('10:51'), kind: 'load.accepted', body: { load, who: curt } },
    { on: 'curt', at: pour('10:52'), kind: 'discharge.started', body: { load } },
    { on: 'curt', at: pour('10:53'), kind: 'water.added', body: { load, amount: { is: 'none' } } },
    {
      on: 'marisol',
      at: pour('10:52'),
      logged: pour('10:55'),
      kind: 'slump.measured',
      body: { load, slump: given('4 1/2', 'in'), how: 'cone', taking: taking('cone', '10:52') },
    },
    {
      on: 'marisol',
      at: pour('10:52'),
      logged: pour('10:55'),
      kind: 'temperature.measured',
      body: {
        of: 'concrete',
        load,
        temperature: given('65', 'degF'),
        taking: taking('thermometer', '10:52'),
      },
    },
    {
      on: 'marisol',
      at: pour('10:55'),
      kind: 'air.measured',
      body: { load, air: given('6.1', 'pct'), method: 'pressure', taking: taking('meter', '10:55') },
    },
    { on: 'curt', at: pour('11:03'), kind: 'discharge.ended', body: { load } },
    { on: 'curt', at: pour('11:06'), kind: 'cylinders.made', body: { load, number: { is: 'none' } } },
    {
      on: 'curt',
      at: pour('11:07'),
      kind: 'concrete.left',
      body: { load, yards: given('0.05', 'yd3'), how: 'by-eye', to: 'washed-out' },
    },
    {
      on: 'curt',
      at: pour('11:08'),
      kind: 'ticket.signed',
      body: { load, who: curt, exception: { is: 'none' }, curb: 'signed' },
    },
    { on: 'curt', at: pour('11:09'), kind: 'load.left', body: { load } },
  ]
}
