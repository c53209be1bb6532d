import type { AccountStore, ChallengeRow, CodeRow, SessionRow } from '../log-store/account-store.ts'

/** Codes, challenges and sessions in memory. "Past" means that the time of expiry has come. */
export const createMemoryAccounts = (): AccountStore => {
  const codes = new Map<string, CodeRow>()
  const challenges = new Map<string, ChallengeRow>()
  const sessions = new Map<string, SessionRow>()
  return {
    putCode: async (row) => void codes.set(row.codeHash, { ...row }),
    code: async (codeHash, now) => {
      const row = codes.get(codeHash)
      return row && row.expiresAt > now ? { ...row } : undefined
    },
    dropCodes: async (purpose) => {
      for (const row of codes.values()) if (row.purpose === purpose) codes.delete(row.codeHash)
    },
    putChallenge: async (row) => void challenges.set(row.nonceHash, { ...row }),
    takeChallenge: async (nonceHash, now) => {
      const row = challenges.get(nonceHash)
      return row !== undefined && row.expiresAt > now && challenges.delete(nonceHash)
    },
    putSession: async (row) => void sessions.set(row.tokenHash, { ...row }),
    session: async (tokenHash, now) => {
      const row = sessions.get(tokenHash)
      return row && row.expiresAt > now ? { ...row } : undefined
    },
    dropSessions: async (company, device) => {
      for (const row of sessions.values()) {
        if (row.company === company && row.device === device) sessions.delete(row.tokenHash)
      }
    },
    sweep: async (now) => {
      for (const row of codes.values()) if (row.expiresAt <= now) codes.delete(row.codeHash)
      for (const row of challenges.values()) if (row.expiresAt <= now) challenges.delete(row.nonceHash)
      for (const row of sessions.values()) if (row.expiresAt <= now) sessions.delete(row.tokenHash)
    },
  }
}
