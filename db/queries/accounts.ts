import { and, eq, gt, lte, sql } from 'drizzle-orm'
import type { Db } from '../connect/clients.ts'
import type { AccountStore } from '../log-store/account-store.ts'
import { challenges, codes, sessions } from '../schema/tables.ts'

/** Codes, challenges and sessions. Taking is a DELETE, which gives the row to one caller only. */
export const createAccounts = (db: Db): AccountStore => ({
  putCode: async (row) => {
    const kept = { ...row, company: row.company ?? null, person: row.person ?? null, use: row.use ?? null }
    await db.insert(codes).values(kept).onConflictDoUpdate({ target: codes.codeHash, set: kept })
  },
  code: async (codeHash, now) => {
    const [row] = await db
      .select()
      .from(codes)
      .where(and(eq(codes.codeHash, codeHash), gt(codes.expiresAt, now)))
    if (!row) return undefined
    return {
      ...row,
      company: row.company ?? undefined,
      person: row.person ?? undefined,
      use: row.use ?? undefined,
    }
  },
  dropCodes: async (purpose) => {
    await db.delete(codes).where(eq(codes.purpose, purpose))
  },
  putChallenge: async (row) => {
    await db.insert(challenges).values(row).onConflictDoUpdate({ target: challenges.nonceHash, set: row })
  },
  takeChallenge: async (nonceHash, now) => {
    const taken = await db
      .delete(challenges)
      .where(and(eq(challenges.nonceHash, nonceHash), gt(challenges.expiresAt, now)))
      .returning({ nonceHash: challenges.nonceHash })
    return taken.length === 1
  },
  putSession: async (row) => {
    await db.insert(sessions).values(row).onConflictDoUpdate({ target: sessions.tokenHash, set: row })
  },
  session: async (tokenHash, now) => {
    const [row] = await db
      .select()
      .from(sessions)
      .where(and(eq(sessions.tokenHash, tokenHash), gt(sessions.expiresAt, now)))
    return row
  },
  dropSessions: async (company, device) => {
    // Compared as text: what is no UUID has no sessions.
    await db
      .delete(sessions)
      .where(and(sql`${sessions.company}::text = ${company}`, sql`${sessions.device}::text = ${device}`))
  },
  sweep: async (now) => {
    await db.delete(codes).where(lte(codes.expiresAt, now))
    await db.delete(challenges).where(lte(challenges.expiresAt, now))
    await db.delete(sessions).where(lte(sessions.expiresAt, now))
  },
})
