import { jobFigures } from '../../api/domain/job/figures.ts'
import { foldJob } from '../../api/domain/job/fold.ts'
import { longJob } from './long-job.ts'
import { printTable } from './table.ts'
import { TRADE_ROWS } from './trade.ts'

// CPU and not wall time, each beside plain code in the same run: ratios travel between machines, rates don't.
const { job, entries } = longJob(10_000)
const view = foldJob(job, entries)
/** The plainest that looks at every entry. */
const countKinds = () => {
  const counts = new Map<string, number>()
  for (const { entry } of entries) counts.set(entry.kind, (counts.get(entry.kind) ?? 0) + 1)
  return counts
}

printTable('The trade’s functions', TRADE_ROWS)
printTable(`A job of ${entries.length} entries`, [
  {
    name: 'fold, an entry',
    work: () => foldJob(job, entries),
    plain: countKinds,
    items: entries.length,
  },
  {
    name: 'figures, an entry',
    work: () => jobFigures(view),
    plain: countKinds,
    items: entries.length,
  },
])
