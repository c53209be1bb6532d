/** The one server-sent event: `data` is the log's new size. Whoever gets it pulls. */
export const LIVE_EVENT = 'grown'
