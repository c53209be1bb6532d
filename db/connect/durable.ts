import { fail, ok, type Result } from '../../api/domain/result.ts'
import type { Sql } from './target.ts'

/** Settings without which a committed transaction may be gone after a power cut. */
const NEEDED = ['fsync', 'full_page_writes', 'synchronous_commit']

/** Refuses a PostgreSQL that may forget what it has confirmed, naming the setting. */
export const checkDurable = async (raw: Sql): Promise<Result<void, 'database-not-durable'>> => {
  const rows = await raw`select name, setting from pg_settings where name in ${raw(NEEDED)} order by name`
  const off = rows.find((row) => row.setting === 'off')
  return off
    ? fail('database-not-durable', off.name, { setting: off.name, value: off.setting })
    : ok(undefined)
}
