/** Moments of a load: nothing is said but that it happened, and when. */
export const STAMP_KINDS = [
  'load.arrived',
  'crew.ready',
  'discharge.started',
  'discharge.paused',
  'discharge.resumed',
  'discharge.ended',
  'load.left',
] as const
export type StampKind = (typeof STAMP_KINDS)[number]
