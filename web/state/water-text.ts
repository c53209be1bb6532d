import type { WaterFigure } from '../../api/domain/job/figures.ts'
import { showNumber } from '../../api/domain/units.ts'
import type { Words } from './language.ts'

/** All water of a load in words: none, so much, not sure, or not recorded, which are four different things. */
export const waterSumText = (t: Words, water: WaterFigure): string => {
  if (water.is === 'none') return t('waterSumNone')
  if (water.is === 'not-sure') return t('waterSumNotSure')
  if (water.is === 'not-recorded') return t('waterSumNotRecorded')
  const sum = t('waterSum', { gallons: showNumber(water.gallons) })
  return water.alsoNotSure ? `${sum} · ${t('waterMaybeMore')}` : sum
}
