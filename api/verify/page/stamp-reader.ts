import { timestampReader } from '../timestamp/read-timestamp.ts'

/** Reads RFC 3161 responses with this browser's own cryptography. */
export const readTimestamp = timestampReader(crypto)
