import { given } from '../../step.ts'
import { DRIVE, LANDING, LOAD_1, LOAD_2, LOAD_3, PATIO, pour, type TernStep, WALK } from './site.ts'

/** What nobody had a hand free for, logged while the slab bleeds: late, and labelled so. */
export const QUIET_HOUR: readonly TernStep[] = [
  {
    on: 'curt',
    at: pour('08:08'),
    logged: pour('11:31'),
    kind: 'load.placed',
    body: {
      load: LOAD_1,
      places: [{ part: DRIVE, from: given('0', 'ft'), to: given('24.6', 'ft') }],
      how: 'by-eye',
      said: 'Measured from the garage.',
    },
  },
  {
    on: 'curt',
    at: pour('10:19'),
    logged: pour('11:33'),
    kind: 'load.placed',
    body: {
      load: LOAD_2,
      places: [
        { part: DRIVE, from: given('24.6', 'ft'), to: given('40', 'ft') },
        { part: WALK },
        { part: LANDING },
        { part: PATIO, yards: given('0.5', 'yd3') },
      ],
      how: 'by-eye',
      said: 'The last of it went to the street end, the walk and the corner of the patio.',
    },
  },
  {
    on: 'curt',
    at: pour('11:03'),
    logged: pour('11:34'),
    kind: 'load.placed',
    body: { load: LOAD_3, places: [{ part: PATIO }], how: 'by-eye', said: 'The rest of the patio.' },
  },
  {
    on: 'curt',
    at: pour('08:08'),
    logged: pour('11:35'),
    kind: 'concrete.left',
    body: { load: LOAD_1, yards: { is: 'none' }, how: 'by-eye' },
  },
  {
    on: 'curt',
    at: pour('10:19'),
    logged: pour('11:35'),
    kind: 'concrete.left',
    body: { load: LOAD_2, yards: { is: 'none' }, how: 'by-eye' },
  },
]
