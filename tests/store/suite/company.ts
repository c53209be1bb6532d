import { randomUUID } from 'node:crypto'
import type { Append, LogStore } from '../../../db/log-store/log-store.ts'
import { createPen } from '../pen.ts'

/** A company that no other test knows, founded, with a pen for it. */
export const newCompany = async (log: LogStore) => {
  const company = randomUUID()
  await log.transact(company, (tx) => tx.found({ origin: `screedbook/${company}` }))
  return { company, pen: createPen() }
}

export const appendTo = (log: LogStore, company: string, rows: Append): Promise<void> =>
  log.transact(company, (tx) => tx.append(rows))

/** A promise with its handle outside. */
export const gate = () => {
  let open = () => {}
  const opened = new Promise<void>((resolve) => {
    open = resolve
  })
  return { open, opened }
}

/** Long enough for what doesn't wait to be over; used only to show that something does wait. */
export const aMoment = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 60))
