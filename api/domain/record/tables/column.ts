import { writeCsv } from '../csv.ts'

/** A table file by its name in the record. Column names and codes are the same in every language. */
export type Table = { readonly name: string; readonly text: string }

/** A column's name, and what stands in it for one row. */
export type Column<T> = readonly [name: string, cell: (row: T) => string | number]

export const tableOf = <T>(name: string, columns: readonly Column<T>[], rows: readonly T[]): Table => ({
  name: `tables/${name}.csv`,
  text: writeCsv(
    columns.map(([head]) => head),
    rows.map((row) => columns.map(([, cell]) => cell(row))),
  ),
})

/** The same columns over a part of each row. */
export const over = <A, B>(columns: readonly Column<B>[], part: (row: A) => B): Column<A>[] =>
  columns.map(([name, cell]) => [name, (row) => cell(part(row))])
