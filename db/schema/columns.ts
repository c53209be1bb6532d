import { Buffer } from 'node:buffer'
import { bigint, customType } from 'drizzle-orm/pg-core'

/** bytea as a plain Uint8Array of its own: the driver's Buffers may be windows on shared memory. */
export const bytes = customType<{ data: Uint8Array; driverData: Buffer }>({
  dataType: () => 'bytea',
  toDriver: (value) => Buffer.from(value.buffer, value.byteOffset, value.byteLength),
  fromDriver: (value) => new Uint8Array(value),
})

/** A SHA-256: 32 bytes in the database, 64 hex digits outside. */
export const hash = customType<{ data: string; driverData: Buffer }>({
  dataType: () => 'bytea',
  toDriver: (value) => Buffer.from(value, 'hex'),
  fromDriver: (value) => value.toString('hex'),
})

/** The peaks of a frontier (SPEC L11), 32 bytes each, one after the other. */
export const peaks = customType<{ data: readonly Uint8Array[]; driverData: Buffer }>({
  dataType: () => 'bytea',
  toDriver: (value) => Buffer.concat(value),
  fromDriver: (value) =>
    Array.from({ length: value.length / 32 }, (_, i) => new Uint8Array(value.subarray(32 * i, 32 * i + 32))),
})

/** SHA-256s, one after the other; hex outside. */
export const hashes = customType<{ data: readonly string[]; driverData: Buffer }>({
  dataType: () => 'bytea',
  toDriver: (value) => Buffer.from(value.join(''), 'hex'),
  fromDriver: (value) => value.toString('hex').match(/.{64}/g) ?? [],
})

/** A count, a position or milliseconds: all below 2^53. */
export const count = (name: string) => bigint(name, { mode: 'number' })
