import type { LoadModel } from '../load-model.ts'
import type { RecordModel } from '../model.ts'
import { eventText } from './answers.ts'
import type { Block } from './blocks.ts'
import type { Speech } from './speech.ts'
import { endsText } from './tolerances.ts'

/** Each limit that a figure was set against: what it is, who states it, and the entry in which that was logged. */
export const limitBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const rows = new Map<string, string[]>()
  const add = (row: string[]) => rows.set(row.join('\n'), row)
  for (const load of model.job.loads) for (const row of rowsOf(load, speech)) add(row)
  const head = [
    speech.say('recLimitOf'),
    speech.say('recLimitValue'),
    speech.say('recLimitBy'),
    speech.say('recLimitEntry'),
  ]
  return [
    { is: 'heading', text: speech.say('recLimitsHead') },
    ...(rows.size === 0
      ? [{ is: 'paragraph', text: speech.say('recNoLimits') } as const]
      : [{ is: 'grid', widths: [56, 60, 42, 30], rows: [head, ...rows.values()] } as const]),
    { is: 'list', items: [speech.say('recLimitsOwn'), speech.say('recLimitsOurs')] },
  ]
}

const rowsOf = (load: LoadModel, speech: Speech): string[][] => {
  const entry = (hash: string | undefined) => {
    const n = hash === undefined ? undefined : speech.countOf(hash)
    return n === undefined ? speech.say('recBeforeUnknown') : speech.say('recEntry', { n })
  }
  const by = (statedBy: 'order' | 'ticket') =>
    statedBy === 'order'
      ? speech.say('recLimitByOrder')
      : speech.say('recLimitByTicket', { load: speech.place(load.load) })
  return [
    ...load.limit.checks.map(({ limitMinutes, to, statedBy, source }) => [
      speech.say('recLimitTime'),
      speech.say('recLimitIs', { n: limitMinutes, event: eventText(to, speech) }),
      by(statedBy),
      entry(source),
    ]),
    ...load.tolerances.flatMap((one) =>
      one.statedBy === undefined
        ? []
        : [
            [
              speech.words.kinds[one.of === 'slump' ? 'slump.measured' : 'air.measured'],
              endsText(one, speech),
              by(one.statedBy),
              entry(one.source),
            ],
          ],
    ),
    ...load.ticketWaters.flatMap(({ ticket, allowance, maxRatio }) => [
      ...(allowance.is === 'given'
        ? [
            [
              speech.say('recAllowance'),
              speech.quantity({ text: allowance.allowed, unit: 'gal' }),
              by('ticket'),
              entry(ticket),
            ],
          ]
        : []),
      ...(maxRatio === undefined ? [] : [[speech.say('recMaxRatio'), maxRatio, by('ticket'), entry(ticket)]]),
    ]),
  ]
}
