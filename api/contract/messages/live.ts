/** A server-sent event: `data` is the log's new size. Whoever gets it pulls. */
export const LIVE_EVENT = 'grown'
/**
 * The other one, now and then while nothing happens; `data` is the log's size. Whoever hears neither for `LIVE_QUIET_MS` is
 * behind something that holds the stream back, and polls.
 */
export const LIVE_ALIVE = 'alive'
export const LIVE_ALIVE_MS = 25_000
export const LIVE_QUIET_MS = 60_000
