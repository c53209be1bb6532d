import { openClient, type Sql, type Target } from './target.ts'

/** Numbers of our session locks, in a pair with the first. */
export const LOCKS = { ours: 0x5c4eed, use: 1, serve: 2, migrate: 3 } as const

/** A lock that lasts as long as its connection. */
export type SessionLock = { readonly client: Sql; end(): Promise<void> }

/**
 * Takes a session lock on a connection of its own; undefined where another has it. When one backend of a server
 * crashes, all its sessions end: the lock is then taken again, or a second process would find it free.
 */
export const takeSessionLock = async (
  target: Target,
  take: (client: Sql) => Promise<boolean>,
): Promise<SessionLock | undefined> => {
  let wanted = true
  const client = openClient(target, {
    max: 1,
    max_lifetime: null,
    // A try that fails closes its connection, and so comes back here.
    onclose: () => {
      if (wanted) setTimeout(() => wanted && take(client).catch(() => {}), 200).unref()
    },
  })
  const end = async () => {
    wanted = false
    await client.end({ timeout: 1 })
  }
  try {
    if (await take(client)) return { client, end }
  } catch (cause) {
    await end()
    throw cause
  }
  await end()
  return undefined
}
