import { newSecret, secretHash } from '../middleware/session.ts'
import type { House } from './route.ts'

const JOIN_MS = 24 * 3600 * 1000

export type JoinCode = { readonly code: string; readonly expiresAt: number }

/** A new one-time code for a further device of a person of this company, good for a day. */
export const makeJoinCode = async (
  world: House['world'],
  { company, person, use }: { company: string; person: string; use: 'phone' | 'office' | 'shared' },
): Promise<JoinCode> => {
  const code = newSecret(world)
  const expiresAt = world.now() + JOIN_MS
  await world.accounts.putCode({
    codeHash: secretHash(code, world),
    purpose: 'join',
    company,
    person,
    use,
    expiresAt,
  })
  return { code, expiresAt }
}
