import { blankets, broom, burlap, cone, crack, scaling, sheen, waterSign } from './scenes.ts'
import { base, level, tape } from './site.ts'
import { ticketPaper } from './ticket.ts'

/** One picture: its file's name, what it shows, and what its file says of time, place and how it was held. */
export type Picture = {
  readonly name: string
  readonly caption: string
  readonly inside: string
  /** On the camera's clock; absent where the file says no time, as of what came out of a chat. */
  readonly taken?: string
  /** EXIF orientation: 1 as it lies, 6 to be turned a quarter clockwise, 3 upside down. */
  readonly orientation?: 1 | 3 | 6
  readonly located?: boolean
}

const first = {
  truck: '218',
  driver: 'ANSEL',
  load: '1',
  ordered: '16.00 + BAL',
  curb: '______',
  received: '______',
}
const eight = { yards: '8.00', most: '250', water: '233.6 GAL', mayAdd: '16' }

const at = (clock: string): string => `2026:04:21 ${clock}`

export const PICTURES: readonly Picture[] = [
  {
    name: 'base-drive',
    caption: 'Base of the drive, damp',
    inside: base(),
    taken: at('06:31:18'),
    located: true,
  },
  {
    name: 'base-walk',
    caption: 'Base of the front walk',
    inside: base(),
    taken: at('06:33:05'),
    orientation: 6,
  },
  { name: 'base-patio', caption: 'Base of the patio', inside: base(), taken: at('06:36:11') },
  {
    name: 'depth-garage',
    caption: 'Form depth at the garage',
    inside: base() + tape('5 1/4 in'),
    taken: at('06:41:40'),
  },
  {
    name: 'depth-street',
    caption: 'Form depth at the street',
    inside: base() + tape('5 in', 430),
    taken: at('06:44:33'),
    orientation: 6,
  },
  {
    name: 'level',
    caption: 'Level on the form, falling to the street',
    inside: level(),
    taken: at('06:48:20'),
  },
  {
    name: 'ticket-71340',
    caption: 'Ticket 71340',
    taken: at('07:34:22'),
    located: true,
    inside: ticketPaper({
      ...first,
      ...eight,
      ticket: '71340',
      delivered: '8.00',
      batched: '07:05',
      printed: '07:08',
      left: '07:12',
      added: '__',
      asked: '____',
      onJob: '07:33',
      begin: '____',
      end: '____',
      leave: '____',
    }),
  },
  {
    name: 'ticket-71352',
    caption: 'Ticket 71352',
    taken: at('09:39:44'),
    inside: ticketPaper({
      ...first,
      ...eight,
      ticket: '71352',
      load: '2',
      truck: '106',
      driver: 'PURVIS',
      delivered: '16.00',
      batched: '08:21',
      printed: '08:24',
      left: '08:29',
      added: '__',
      asked: '____',
      onJob: '09:38',
      begin: '____',
      end: '____',
      leave: '____',
    }),
  },
  {
    name: 'ticket-71352-signed',
    caption: 'Ticket 71352 when it was signed',
    taken: at('10:24:15'),
    inside: ticketPaper({
      ...first,
      ...eight,
      ticket: '71352',
      load: '2',
      truck: '106',
      driver: 'PURVIS',
      delivered: '16.00',
      batched: '08:21',
      printed: '08:24',
      left: '08:29',
      added: '12 + 8',
      asked: 'CURT / ____',
      onJob: '09:38',
      begin: '9:45',
      end: '10:20',
      leave: '10:25',
      received: 'Curt',
    }),
  },
  {
    name: 'ticket-71371',
    caption: 'Ticket 71371',
    taken: at('10:48:31'),
    inside: ticketPaper({
      ...first,
      ticket: '71371',
      load: '3',
      yards: '2.50',
      delivered: '18.50',
      ordered: '18.50',
      batched: '10:20',
      printed: '10:22',
      left: '10:26',
      most: '78.1',
      water: '73.0 GAL',
      mayAdd: '5',
      added: '__',
      asked: '____',
      onJob: '10:47',
      begin: '____',
      end: '____',
      leave: '____',
    }),
  },
  { name: 'cone-load-1', caption: 'Cone, load 1', inside: cone('4 1/4 in'), taken: at('07:52:27') },
  { name: 'cone-load-2', caption: 'Cone, load 2, after 12 gal', inside: cone('4 in'), taken: at('09:46:29') },
  {
    name: 'edge-burlap',
    caption: 'Open edge under wet burlap',
    inside: burlap(),
    taken: at('09:05:43'),
    orientation: 6,
  },
  {
    name: 'chute-water-sign',
    caption: 'At the chute: the hand sign for water',
    inside: waterSign(),
    taken: at('10:00:20'),
  },
  {
    name: 'broom-drive',
    caption: 'Broom finish, drive, load 1',
    inside: broom(false),
    taken: at('12:22:26'),
    located: true,
  },
  {
    name: 'broom-walk',
    caption: 'Broom finish, front walk, jointed',
    inside: broom(true),
    taken: at('13:47:25'),
    orientation: 3,
  },
  { name: 'cure-sheen', caption: 'Wet sheen of the cure', inside: sheen(), taken: at('12:36:28') },
  { name: 'blankets', caption: 'Blankets for the night', inside: blankets(), taken: at('18:10:37') },
  { name: 'defect-crack', caption: 'A crack across the drive, sent by Nora', inside: crack() },
  { name: 'defect-crack-tape', caption: 'The crack with a tape, sent by Nora', inside: crack('24 ft 4 in') },
  { name: 'defect-scaling', caption: 'Light scaling at the street, sent by Nora', inside: scaling() },
]
