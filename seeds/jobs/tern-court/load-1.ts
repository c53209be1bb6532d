import { english, given } from '../../step.ts'
import { LOAD_1, local, type People, pour, type TernStep } from './site.ts'
import { takenBy } from './taken.ts'
import { type Printed, ticketOf } from './ticket.ts'

const load = LOAD_1

const PRINTED: Printed = {
  load,
  number: '71340',
  truck: '218',
  driver: 'Ansel',
  loadOfDay: '1',
  yards: '8.00',
  ordered: '16.00',
  delivered: '8.00',
  batched: '07:05',
  printed: '07:08',
  leftPlant: '07:12',
  batchedWater: '233.6',
  mayAdd: '16',
}

/** The good load. Its batching time was typed wrong first: the correction and the first value both stay. */
export const loadOne = (people: People): readonly TernStep[] => {
  const taking = (instrument: 'cone' | 'meter' | 'thermometer', result: string) =>
    takenBy(people, instrument, { sampled: '07:48', result, point: 'first-third', water: 'none-added' })
  return [
    { on: 'curt', at: pour('07:33'), kind: 'load.arrived', body: { load } },
    { on: 'curt', at: pour('07:34'), photo: 'ticket-71340', shows: 'ticket', load },
    {
      on: 'curt',
      at: pour('07:36'),
      name: 'ticket 71340',
      kind: 'ticket.recorded',
      body: ticketOf({ ...PRINTED, batched: '07:50' }),
    },
    {
      on: 'curt',
      at: pour('07:38'),
      kind: 'ticket.recorded',
      body: ticketOf(PRINTED),
      corrects: 'ticket 71340',
      why: english('I typed 7:50; the ticket prints batched 7:05.'),
    },
    { on: 'curt', at: pour('07:40'), kind: 'water.added', body: { load, amount: { is: 'none' } } },
    { on: 'curt', at: pour('07:40'), kind: 'load.accepted', body: { load, who: { person: people.curt } } },
    { on: 'curt', at: pour('07:41'), kind: 'discharge.started', body: { load } },
    { on: 'marisol', at: pour('07:52'), photo: 'cone-load-1', shows: 'test', load },
    {
      on: 'marisol',
      at: pour('07:51'),
      logged: pour('07:57'),
      kind: 'slump.measured',
      body: { load, slump: given('4 1/4', 'in'), how: 'cone', taking: taking('cone', '07:51') },
    },
    {
      on: 'marisol',
      at: pour('07:51'),
      logged: pour('07:57'),
      kind: 'temperature.measured',
      body: {
        of: 'concrete',
        load,
        temperature: given('63', 'degF'),
        taking: taking('thermometer', '07:51'),
      },
    },
    {
      on: 'marisol',
      at: pour('07:51'),
      logged: pour('07:57'),
      kind: 'temperature.measured',
      body: { of: 'air', temperature: given('48', 'degF') },
    },
    {
      on: 'marisol',
      at: pour('07:57'),
      kind: 'air.measured',
      body: { load, air: given('6.4', 'pct'), method: 'pressure', taking: taking('meter', '07:57') },
    },
    {
      on: 'marisol',
      at: pour('08:06'),
      kind: 'cylinders.made',
      body: {
        load,
        number: { is: 'given', text: '4' },
        size: '6x12',
        doneAt: local('08:06'),
        taking: { sampledAt: local('07:48'), point: 'first-third', taker: { person: people.marisol } },
      },
    },
    { on: 'curt', at: pour('08:08'), kind: 'discharge.ended', body: { load } },
    {
      on: 'curt',
      at: pour('08:12'),
      kind: 'ticket.signed',
      body: { load, who: { person: people.curt }, exception: { is: 'none' }, curb: 'signed' },
    },
    { on: 'curt', at: pour('08:14'), kind: 'load.left', body: { load } },
  ]
}
