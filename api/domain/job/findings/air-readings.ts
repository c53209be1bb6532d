import type { Temperature } from '../../trade/measure.ts'
import type { JobView } from '../view.ts'
import { entered } from './finding.ts'
import { instant } from './where.ts'

export type AirReading = { readonly at: string; readonly hash: string; readonly air: Temperature }

/** Every air temperature that stands, of the weather or read on site, in the order in which they were. */
export const airReadings = (job: JobView): AirReading[] => {
  const read = [job, ...job.loads].flatMap(({ temperatures }) =>
    temperatures.flatMap(({ at, hash, value: { of, temperature } }) => {
      const air = of === 'air' && temperature.is === 'given' ? entered(temperature) : undefined
      return air ? [{ at, hash, air }] : []
    }),
  )
  const observed = job.weather.flatMap(({ at, hash, value }) => {
    const air = entered(value.air)
    return air ? [{ at, hash, air }] : []
  })
  return [...read, ...observed].sort((a, b) => instant(a.at) - instant(b.at) || (a.hash < b.hash ? -1 : 1))
}
