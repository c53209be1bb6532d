import { index, pgTable, primaryKey, text, unique, uuid } from 'drizzle-orm/pg-core'
import { bytes, count, hash, peaks } from './columns.ts'

/**
 * The company log (SPEC §4). Every key begins with the company; nothing counts or joins across companies. These tables
 * only gain columns, and their rows are only added, but for the ends of companies and threads, which move forward.
 */
export const companies = pgTable('companies', {
  company: uuid('company').primaryKey(),
  origin: text('origin').notNull().unique(),
  size: count('size').notNull(),
  peaks: peaks('peaks').notNull(),
  stoppedCode: text('stopped_code'),
  stoppedEvidence: text('stopped_evidence'),
})

export const threads = pgTable(
  'threads',
  {
    company: uuid('company').notNull(),
    job: uuid('job').notNull(),
    tag: bytes('tag').notNull(),
    count: count('count').notNull(),
    last: bytes('last').notNull(),
    lastPosition: count('last_position').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.job] })],
)

export const leaves = pgTable(
  'leaves',
  {
    company: uuid('company').notNull(),
    position: count('position').notNull(),
    entryHash: hash('entry_hash').notNull(),
    id: uuid('id').notNull(),
    job: uuid('job').notNull(),
    count: count('count').notNull(),
    kind: text('kind').notNull(),
    device: uuid('device').notNull(),
    receivedAt: count('received_at').notNull(),
    leaf: bytes('leaf').notNull(),
    leafHash: bytes('leaf_hash').notNull(),
    /** Null where nobody holds the entry any more: its place and hash stay. */
    bytes: bytes('bytes'),
  },
  (t) => [
    primaryKey({ columns: [t.company, t.position] }),
    unique().on(t.company, t.entryHash),
    unique().on(t.company, t.id),
    unique().on(t.company, t.job, t.count),
  ],
)

export const checkpoints = pgTable(
  'checkpoints',
  {
    company: uuid('company').notNull(),
    size: count('size').notNull(),
    root: bytes('root').notNull(),
    note: text('note').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.size] })],
)

/** Photos and sounds stored whole; the bytes themselves are elsewhere. */
export const blobs = pgTable(
  'blobs',
  {
    company: uuid('company').notNull(),
    hash: hash('hash').notNull(),
    bytes: count('bytes').notNull(),
    type: text('type').notNull(),
    receivedAt: count('received_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.hash] })],
)

/** Which job's thread names which photo. */
export const photoMentions = pgTable(
  'photo_mentions',
  {
    company: uuid('company').notNull(),
    photo: hash('photo').notNull(),
    job: uuid('job').notNull(),
    kind: text('kind').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.photo, t.job, t.kind] }), index().on(t.company, t.job)],
)

/** Tokens of outside time-stamp authorities (RFC 3161), by the SHA-256 under which the log names them (SPEC L57). */
export const stamps = pgTable(
  'stamps',
  {
    company: uuid('company').notNull(),
    token: hash('token').notNull(),
    size: count('size').notNull(),
    bytes: bytes('bytes').notNull(),
    receivedAt: count('received_at').notNull(),
  },
  (t) => [primaryKey({ columns: [t.company, t.token] })],
)
