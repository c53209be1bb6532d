import { index, pgTable, text, uuid } from 'drizzle-orm/pg-core'
import { count, hash } from './columns.ts'

/**
 * What must be forgettable. Each is found by the hash of a secret that its holder shows, before anyone knows which
 * company that holder belongs to: so the secret's hash is the key here, and not the company.
 */
export const codes = pgTable('codes', {
  codeHash: hash('code_hash').primaryKey(),
  purpose: text('purpose', { enum: ['set-up', 'join'] }).notNull(),
  company: uuid('company'),
  person: text('person'),
  use: text('use', { enum: ['phone', 'office', 'shared'] }),
  expiresAt: count('expires_at').notNull(),
})

export const challenges = pgTable('challenges', {
  nonceHash: hash('nonce_hash').primaryKey(),
  expiresAt: count('expires_at').notNull(),
})

export const sessions = pgTable(
  'sessions',
  {
    tokenHash: hash('token_hash').primaryKey(),
    company: uuid('company').notNull(),
    device: uuid('device').notNull(),
    expiresAt: count('expires_at').notNull(),
  },
  (t) => [index().on(t.company, t.device)],
)
