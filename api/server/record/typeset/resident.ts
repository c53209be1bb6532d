import { readFileSync } from 'node:fs'

const PAGE_BYTES = 4096

/**
 * Memory that a process holds now. Linux alone tells it cheaply; elsewhere undefined, and the time limit stands alone.
 * Source: proc(5), /proc/pid/statm, second field. On machines with larger pages this says less than is held.
 */
export const residentBytes = (pid: number): number | undefined => {
  try {
    const pages = Number(readFileSync(`/proc/${pid}/statm`, 'utf8').split(' ')[1])
    return Number.isFinite(pages) ? pages * PAGE_BYTES : undefined
  } catch {
    return undefined
  }
}
