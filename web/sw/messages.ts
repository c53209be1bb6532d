/**
 * What a page sends a waiting service worker when somebody has agreed to the newer app. A type alone, since the worker
 * has to be one file.
 */
export type TakeOver = 'take-over'
