import type { LoadView } from './view.ts'

/**
 * Sent back whole: rejected, and nobody says that any of it began to go into the forms. A load that was rejected with its
 * discharge begun is like any other that was not used up: what is left over says how much of it stayed.
 */
export const isSentBack = (load: LoadView): boolean =>
  load.rejected.length > 0 && load.started.length === 0 && load.placed.length === 0
