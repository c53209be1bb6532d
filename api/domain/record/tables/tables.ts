import type { RecordModel } from '../model.ts'
import { namesOf } from './cells.ts'
import type { Table } from './column.ts'
import { comparisonsTable } from './comparisons.ts'
import { entriesTable } from './entries.ts'
import { findingsTable } from './findings.ts'
import { loadsTable } from './loads.ts'
import { airTable, readingsTable, slumpTable, temperaturesTable } from './readings.ts'
import { checksTable, eventsTable, gapsTable, weatherTable } from './site.ts'
import { mixTable, ticketsTable } from './tickets.ts'
import { admixturesTable, waterFiguresTable, waterTable } from './water.ts'
import { betweenTable, ordersTable, partsTable, placedTable, yardsTable } from './yards.ts'

export type { Table } from './column.ts'

/**
 * What an expert needs to work minutes, water and volumes out again by hand. A row is an entry as it was logged, also one
 * that no longer stands; `loads`, `water-figures`, `comparisons`, `findings`, `yards`, `between-loads` and `gaps` are what they come to.
 */
const TABLES = [
  entriesTable,
  ordersTable,
  mixTable,
  partsTable,
  checksTable,
  loadsTable,
  ticketsTable,
  waterTable,
  waterFiguresTable,
  admixturesTable,
  slumpTable,
  airTable,
  temperaturesTable,
  readingsTable,
  comparisonsTable,
  findingsTable,
  placedTable,
  betweenTable,
  yardsTable,
  weatherTable,
  eventsTable,
  gapsTable,
]

export const tablesOf = (model: RecordModel): Table[] => {
  const names = namesOf(model)
  return TABLES.map((table) => table(model, names))
}
