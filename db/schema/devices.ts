import { boolean, index, integer, pgTable, primaryKey, text, uuid } from 'drizzle-orm/pg-core'
import { bytes, count, hash, hashes, peaks } from './columns.ts'

/** Device logs (SPEC §6) as the server has them, with every head that it was shown. They only gain columns. */
export const deviceLogs = pgTable(
  'device_logs',
  {
    company: uuid('company').notNull(),
    device: uuid('device').notNull(),
    epoch: integer('epoch').notNull(),
    size: count('size').notNull(),
    peaks: peaks('peaks').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.device, t.epoch] })],
)

export const deviceLeaves = pgTable(
  'device_leaves',
  {
    company: uuid('company').notNull(),
    device: uuid('device').notNull(),
    epoch: integer('epoch').notNull(),
    index: count('index').notNull(),
    entryHash: hash('entry_hash').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.company, t.device, t.epoch, t.index] }),
    index().on(t.company, t.entryHash),
  ],
)

export const deviceHeads = pgTable(
  'device_heads',
  {
    company: uuid('company').notNull(),
    device: uuid('device').notNull(),
    epoch: integer('epoch').notNull(),
    size: count('size').notNull(),
    /** SHA-256 of the note: the same note twice is one row, and two notes of one size are two. */
    noteHash: hash('note_hash').notNull(),
    root: bytes('root').notNull(),
    note: text('note').notNull(),
    atSize: count('at_size').notNull(),
    receivedAt: count('received_at').notNull(),
    disputed: boolean('disputed').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.device, t.epoch, t.size, t.noteHash] })],
)

/** What withdrawn devices sent, outside every figure until an owner decides. */
export const setAside = pgTable(
  'set_aside',
  {
    company: uuid('company').notNull(),
    entryHash: hash('entry_hash').notNull(),
    device: uuid('device').notNull(),
    bytes: bytes('bytes').notNull(),
    receivedAt: count('received_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.entryHash] }), index().on(t.company, t.device)],
)

/** The same pushes as they were signed: where their entries stand in the device's log. */
export const asidePushes = pgTable(
  'set_aside_pushes',
  {
    company: uuid('company').notNull(),
    device: uuid('device').notNull(),
    /** SHA-256 of the note: the same push twice is one row. */
    noteHash: hash('note_hash').notNull(),
    epoch: integer('epoch').notNull(),
    from: count('from_index').notNull(),
    hashes: hashes('hashes').notNull(),
    size: count('size').notNull(),
    root: bytes('root').notNull(),
    note: text('note').notNull(),
    receivedAt: count('received_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.device, t.noteHash] })],
)
