import { and, asc, desc, eq, inArray, lt } from 'drizzle-orm'
import type { Db } from '../connect/clients.ts'
import { isUuid } from '../log-store/check-append.ts'
import type { LogStore } from '../log-store/log-store.ts'
import {
  blobs,
  companies,
  deviceHeads,
  deviceLeaves,
  leaves,
  setAside,
  stamps,
  threads,
} from '../schema/tables.ts'
import { checkpointReaders } from './pages.ts'
import { toCompany, toHead, toLeaf } from './rows.ts'

/**
 * Reads of what is committed. Each is one statement, and so sees whole transactions only. An id that is no UUID names
 * nothing, rather than being an error of PostgreSQL's.
 */
export const logReaders = (db: Db): Omit<LogStore, 'transact' | 'onCommit'> => ({
  ...checkpointReaders(db),
  companies: async () => {
    const rows = await db
      .select({ company: companies.company })
      .from(companies)
      .orderBy(asc(companies.company))
    return rows.map((row) => row.company)
  },
  company: async (company) => {
    if (!isUuid(company)) return undefined
    const [row] = await db.select().from(companies).where(eq(companies.company, company))
    return row && toCompany(row)
  },
  thread: async (company, job, upTo = Number.MAX_SAFE_INTEGER) => {
    if (!isUuid(company) || !isUuid(job)) return []
    const rows = await db
      .select()
      .from(leaves)
      .where(and(eq(leaves.company, company), eq(leaves.job, job), lt(leaves.position, upTo)))
      .orderBy(asc(leaves.count))
    return rows.map(toLeaf)
  },
  threads: async (company) => {
    if (!isUuid(company)) return []
    return db
      .select({ job: threads.job, count: threads.count, lastPosition: threads.lastPosition })
      .from(threads)
      .where(eq(threads.company, company))
      .orderBy(desc(threads.lastPosition))
  },
  leafHashes: async (company, size) => {
    if (!isUuid(company)) return []
    const rows = await db
      .select({ leafHash: leaves.leafHash })
      .from(leaves)
      .where(and(eq(leaves.company, company), lt(leaves.position, size)))
      .orderBy(asc(leaves.position))
    return rows.map((row) => row.leafHash)
  },
  deviceLeaves: async (company, device, epoch, size) => {
    if (!isUuid(company) || !isUuid(device)) return []
    const log = and(
      eq(deviceLeaves.company, company),
      eq(deviceLeaves.device, device),
      eq(deviceLeaves.epoch, epoch),
    )
    const rows = await db
      .select({ entryHash: deviceLeaves.entryHash })
      .from(deviceLeaves)
      .where(and(log, lt(deviceLeaves.index, size)))
      .orderBy(asc(deviceLeaves.index))
    return rows.map((row) => row.entryHash)
  },
  deviceIndexOf: async (company, hashes) => {
    if (!isUuid(company) || hashes.length === 0) return []
    const { device, epoch, index, entryHash } = deviceLeaves
    return db
      .select({ device, epoch, index, entryHash })
      .from(deviceLeaves)
      .where(and(eq(deviceLeaves.company, company), inArray(entryHash, [...hashes])))
      .orderBy(asc(device), asc(epoch), asc(index))
  },
  heads: async (company) => {
    if (!isUuid(company)) return []
    const { device, epoch, size, receivedAt, noteHash } = deviceHeads
    const rows = await db
      .select()
      .from(deviceHeads)
      .where(eq(deviceHeads.company, company))
      .orderBy(asc(device), asc(epoch), asc(size), asc(receivedAt), asc(noteHash))
    return rows.map(toHead)
  },
  blob: async (company, hash) => {
    if (!isUuid(company)) return undefined
    const [row] = await db
      .select({ hash: blobs.hash, bytes: blobs.bytes, type: blobs.type, receivedAt: blobs.receivedAt })
      .from(blobs)
      .where(and(eq(blobs.company, company), eq(blobs.hash, hash)))
    return row
  },
  stamp: async (company, token) => {
    if (!isUuid(company) || !/^[0-9a-f]{64}$/.test(token)) return undefined
    const { size, bytes, receivedAt } = stamps
    const [row] = await db
      .select({ token: stamps.token, size, bytes, receivedAt })
      .from(stamps)
      .where(and(eq(stamps.company, company), eq(stamps.token, token)))
    return row
  },
  setAside: async (company, device) => {
    if (!isUuid(company) || !isUuid(device)) return []
    const { entryHash, bytes, receivedAt } = setAside
    return db
      .select({ device: setAside.device, entryHash, bytes, receivedAt })
      .from(setAside)
      .where(and(eq(setAside.company, company), eq(setAside.device, device)))
      .orderBy(asc(receivedAt), asc(entryHash))
  },
})
