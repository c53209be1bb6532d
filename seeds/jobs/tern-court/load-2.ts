import { english, given, spanish } from '../../step.ts'
import { LOAD_2, type People, pour, type TernStep } from './site.ts'
import { takenBy } from './taken.ts'
import { type Printed, ticketOf } from './ticket.ts'

const load = LOAD_2

const PRINTED: Printed = {
  load,
  number: '71352',
  truck: '106',
  driver: 'Purvis',
  loadOfDay: '2',
  yards: '8.00',
  ordered: '16.00',
  delivered: '16.00',
  batched: '08:21',
  printed: '08:24',
  leftPlant: '08:29',
  batchedWater: '233.6',
  mayAdd: '16',
}

/**
 * The trouble. Left open on purpose: nobody waived the ticket's limit, nobody tested after the second water, and the
 * ticket's curb line was left blank.
 */
export const loadTwo = (people: People): readonly TernStep[] => {
  const taking = (instrument: 'cone' | 'meter' | 'thermometer', result: string) =>
    takenBy(people, instrument, { sampled: '09:43', result, point: 'first-portion', water: 'after' })
  const curt = { person: people.curt }
  const beto = { person: people.beto }
  const purvis = { called: 'Purvis, the driver' }
  return [
    {
      on: 'curt',
      at: pour('08:55'),
      kind: 'dispatch.called',
      body: { from: 'us', said: english('Truck 106 is still at the crossing.') },
    },
    { on: 'curt', at: pour('09:38'), kind: 'load.arrived', body: { load } },
    { on: 'curt', at: pour('09:39'), kind: 'ticket.recorded', body: ticketOf(PRINTED) },
    { on: 'curt', at: pour('09:39'), photo: 'ticket-71352', shows: 'ticket', load },
    {
      on: 'curt',
      at: pour('09:39'),
      kind: 'slump.measured',
      body: {
        load,
        slump: given('2 1/2', 'in'),
        how: 'by-eye',
        taking: { point: 'chute', water: 'before', taker: curt },
      },
    },
    {
      on: 'curt',
      at: pour('09:40'),
      kind: 'remark.made',
      body: {
        load,
        remark: english(
          'The driver says the rail crossing on County 9 was closed. Nobody here checked that.',
        ),
      },
    },
    {
      on: 'curt',
      at: pour('09:40'),
      logged: pour('09:43'),
      kind: 'water.added',
      body: {
        load,
        amount: given('12', 'gal'),
        stage: 'before-discharge',
        asked: curt,
        added: purvis,
        mixed: given('3', 'min'),
      },
    },
    { on: 'curt', at: pour('09:44'), kind: 'load.accepted', body: { load, who: curt } },
    { on: 'curt', at: pour('09:45'), kind: 'discharge.started', body: { load } },
    {
      on: 'marisol',
      at: pour('09:44'),
      logged: pour('09:45'),
      kind: 'slump.measured',
      body: { load, slump: given('4', 'in'), how: 'cone', taking: taking('cone', '09:44') },
    },
    {
      on: 'marisol',
      at: pour('09:44'),
      logged: pour('09:45'),
      kind: 'temperature.measured',
      body: {
        of: 'concrete',
        load,
        temperature: given('66', 'degF'),
        taking: taking('thermometer', '09:44'),
      },
    },
    { on: 'marisol', at: pour('09:46'), photo: 'cone-load-2', shows: 'test', load },
    {
      on: 'marisol',
      at: pour('09:51'),
      kind: 'air.measured',
      body: { load, air: given('5.4', 'pct'), method: 'pressure', taking: taking('meter', '09:51') },
    },
    { on: 'curt', at: pour('09:58'), kind: 'discharge.paused', body: { load } },
    { on: 'curt', at: pour('10:00'), photo: 'chute-water-sign', shows: 'water', load },
    {
      on: 'marisol',
      at: pour('10:00'),
      logged: pour('10:01'),
      kind: 'water.added',
      body: {
        load,
        amount: given('8', 'gal'),
        stage: 'after-discharge-began',
        inDrum: {
          yards: given('5', 'yd3'),
          how: 'by-eye',
          from: given('4', 'yd3'),
          to: given('6', 'yd3'),
        },
        asked: beto,
        added: purvis,
        mixed: given('3', 'min'),
      },
    },
    {
      on: 'marisol',
      at: pour('10:02'),
      kind: 'remark.made',
      body: {
        load,
        remark: spanish(
          'Beto: «Le echaron otros ocho galones, quedan como cinco yardas.» La pidió con la mano.',
        ),
      },
    },
    { on: 'curt', at: pour('10:03'), kind: 'discharge.resumed', body: { load } },
    {
      on: 'curt',
      at: pour('10:06'),
      kind: 'balance.ordered',
      body: { yards: given('2.5', 'yd3'), needed: given('2.5', 'yd3'), how: 'measured' },
    },
    { on: 'curt', at: pour('10:19'), kind: 'discharge.ended', body: { load } },
    {
      on: 'marisol',
      at: pour('10:20'),
      kind: 'remark.made',
      body: { load, remark: spanish('Beto: «Ya quedó vacío.»') },
    },
    {
      on: 'curt',
      at: pour('10:22'),
      kind: 'slump.measured',
      body: { load, slump: { is: 'not-taken' }, taking: { water: 'after' } },
    },
    {
      on: 'curt',
      at: pour('10:22'),
      kind: 'air.measured',
      body: { load, air: { is: 'not-taken' }, taking: { water: 'after' } },
    },
    {
      on: 'curt',
      at: pour('10:22'),
      kind: 'cylinders.made',
      body: { load, number: { is: 'not-taken' } },
    },
    {
      on: 'curt',
      at: pour('10:24'),
      kind: 'ticket.signed',
      body: { load, who: curt, exception: { is: 'none' }, curb: 'left-blank' },
    },
    { on: 'curt', at: pour('10:24'), photo: 'ticket-71352-signed', shows: 'ticket', load },
    { on: 'curt', at: pour('10:25'), kind: 'load.left', body: { load } },
  ]
}
