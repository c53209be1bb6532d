import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { recordBytes } from '../make-good.ts'
import { remake, unpack } from '../record-kit.ts'
import { ALL, OURS, type Row, text } from './kit.ts'

/** What the entries come to. */
export const FIGURE_ROWS: readonly Row[] = [
  {
    damage: 'a figure changed in the model',
    rule: 'L41.11',
    by: OURS,
    make: text('record.json', (t) => t.replace('"minutes":[84]', '"minutes":[48]')),
    expect: [['figures-differ', 'record.json']],
  },
  {
    damage: 'a model in no language',
    rule: 'L41.11',
    by: OURS,
    make: text('record.json', (t) => t.replace('"language":"en"', '"language":"xx"')),
    expect: [['figures-differ', 'record.json']],
  },
  {
    damage: 'a figure changed in a table',
    rule: 'L41.11',
    by: OURS,
    make: text('tables/loads.csv', (t) => t.replace('118 | 119', '88 | 89')),
    expect: [['table-differs', 'tables/loads.csv']],
  },
  {
    damage: 'a page that is no PDF',
    rule: 'L41.11',
    by: OURS,
    make: async ({ good, files }) => remake(files.set('record.pdf', toUtf8('%PDF-1.7 nothing')), good.log),
    expect: [['pdf-differs', 'record.pdf']],
  },
  {
    damage: 'another time on the frame than that of the last leaf, which the record holds',
    rule: 'L38',
    by: ALL,
    make: async ({ good }) => {
      const size = good.log.leaves.findLast((l) => l.job === good.job)!.position + 1
      const files = await unpack(await recordBytes(good, { checkpointSize: size }))
      return remake(files, good.log, { made: Date.UTC(2026, 3, 22) })
    },
    expect: [['manifest-malformed', 'manifest.note']],
  },
  {
    damage: 'another day on the frame',
    rule: 'L38',
    by: OURS,
    make: async ({ good, files }) => remake(files, good.log, { made: Date.UTC(2026, 3, 22) }),
    expect: [['figures-differ', 'record.json']],
  },
]
