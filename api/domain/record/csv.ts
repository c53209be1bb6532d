/**
 * A table as RFC 4180 has it, in UTF-8: CRLF after each line, every cell that needs it quoted.
 * A cell that a spreadsheet would run as a formula gets an apostrophe before it: nobody should be able to log a remark
 * that acts when an adjuster opens the table. Plain numbers are left as they are. The entries hold what was written.
 */
export const writeCsv = (head: readonly string[], rows: readonly (readonly (string | number)[])[]): string =>
  [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')

const cell = (value: string | number): string => {
  const text = typeof value === 'number' ? String(value) : harmless(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

const harmless = (text: string): string => {
  if (!/^[=+\-@\t\r\n]/.test(text)) return text
  return /^-\d+(?:\.\d+)?$/.test(text) ? text : `'${text}`
}
