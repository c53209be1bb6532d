import { Buffer } from 'node:buffer'

/**
 * Columns as text arrays for `unnest`: a statement with one parameter a column is prepared once, however many rows
 * come. Built by hand, since the driver and drizzle spend four times as long on a parameter for each value.
 */
export const numbers = (values: readonly number[]): string => `{${values.join(',')}}`

/** UUIDs, and others that need no quotes. */
export const plain = (values: readonly string[]): string => `{${values.join(',')}}`

export const texts = (values: readonly string[]): string =>
  `{${values.map((value) => `"${value.replace(/["\\]/g, '\\$&')}"`).join(',')}}`

export const hexes = (values: readonly string[]): string =>
  `{${values.map((value) => `"\\\\x${value}"`).join(',')}}`

export const blobs = (values: readonly (Uint8Array | undefined)[]): string =>
  `{${values.map((value) => (value ? `"\\\\x${hexOf(value)}"` : 'NULL')).join(',')}}`

const hexOf = (bytes: Uint8Array): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('hex')
