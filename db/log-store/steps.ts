import type { LogTx } from './log-store.ts'

/**
 * What both stores want of the steps of a transaction: one after the other even where the caller starts several; none
 * after the end, since it would write outside of any transaction; and a step that failed fails the whole, even where
 * the caller caught it, since PostgreSQL would not go on either.
 */
export const guardSteps = (steps: LogTx) => {
  let open = true
  let running: Promise<unknown> = Promise.resolve()
  const failures: unknown[] = []

  const guard =
    <A extends readonly unknown[], R>(step: (...given: A) => Promise<R>) =>
    (...given: A): Promise<R> => {
      const mine = running.then(async () => {
        if (!open) throw new Error('the transaction has ended')
        if (failures.length > 0) throw failures[0]
        return step(...given)
      })
      running = mine.catch((cause) => failures.push(cause))
      return mine
    }

  return {
    tx: {
      company: guard(steps.company),
      found: guard(steps.found),
      threads: guard(steps.threads),
      threadLeaves: guard(steps.threadLeaves),
      byIds: guard(steps.byIds),
      byHashes: guard(steps.byHashes),
      deviceLogs: guard(steps.deviceLogs),
      deviceLeaves: guard(steps.deviceLeaves),
      checkpointAt: guard(steps.checkpointAt),
      leafHashes: guard(steps.leafHashes),
      setAside: guard(steps.setAside),
      asidePushes: guard(steps.asidePushes),
      blobs: guard(steps.blobs),
      mentions: guard(steps.mentions),
      append: guard(steps.append),
    } satisfies LogTx,
    /** Waits for the step that is running, lets no other begin, and throws where one had failed. */
    end: async (): Promise<void> => {
      await running
      open = false
      if (failures.length > 0) throw failures[0]
    },
  }
}
