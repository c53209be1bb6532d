import type { OpenHouse } from '../open.ts'
import type { RecordMaker } from '../world.ts'

/** The record's maker over an opened house. */
export const recordMaker =
  (_house: OpenHouse, _release: string): RecordMaker =>
  async () =>
    undefined
