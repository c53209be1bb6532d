import { english } from '../../step.ts'
import { DRIVE, type TernStep } from './site.ts'

const on = 'office'
const DAY = '2026-11-21'

const hers = (clock: string, words: string): TernStep => ({
  on,
  at: `${DAY} ${clock}`,
  kind: 'remark.made',
  body: { remark: english(`Nora, by text: “${words}”`) },
})

/** Seven months on. What Nora writes is kept as her words; her photos come out of a chat, so their files say no time. */
export const CALLBACK: readonly TernStep[] = [
  hers(
    '10:31',
    'There is a crack straight across the drive, hairline to 1/16 in. I measured 24 ft 4 in from the garage door. There is no step.',
  ),
  {
    on,
    at: `${DAY} 10:32`,
    photo: 'defect-crack',
    shows: 'defect',
    part: DRIVE,
    where: '24 ft 4 in, by Nora',
  },
  {
    on,
    at: `${DAY} 10:32`,
    photo: 'defect-crack-tape',
    shows: 'defect',
    part: DRIVE,
    where: '24 ft 4 in, by Nora',
  },
  hers(
    '10:33',
    'The top flakes a little from 34 to 40 ft, at the street, and on the first 6 ft of the walk.',
  ),
  {
    on,
    at: `${DAY} 10:34`,
    photo: 'defect-scaling',
    shows: 'defect',
    part: DRIVE,
    where: 'street end, by Nora',
  },
  hers('10:36', 'On 14 November I spread calcium-chloride pellets.'),
]
