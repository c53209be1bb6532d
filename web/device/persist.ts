/** Whether the browser has promised to keep this app's storage: `unknown` where it can't be asked. */
export type Persistence = 'granted' | 'refused' | 'unknown'

/**
 * Asks the browser not to clear this app's storage by itself. Some grant it only to an installed app, so it is asked at
 * each start, and the answer is shown.
 */
export const askToPersist = async (): Promise<Persistence> => {
  try {
    if (await navigator.storage.persisted()) return 'granted'
    return (await navigator.storage.persist()) ? 'granted' : 'refused'
  } catch {
    return 'unknown'
  }
}
