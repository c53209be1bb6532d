import type { JobView } from '../view.ts'
import { coldWeatherFindings } from './cold-weather.ts'
import { dischargeFindings } from './discharge.ts'
import { jobEditions } from './editions.ts'
import { evaporationFindings } from './evaporation.ts'
import { FINDINGS, type JobFinding } from './finding.ts'
import { freshFindings } from './fresh.ts'
import { jointFindings } from './joints.ts'
import { protectionFindings } from './protection.ts'
import { samplingFindings } from './sampling.ts'
import { strengthFindings } from './strength.ts'
import { temperatureFindings } from './temperature.ts'

/**
 * All that a job's standing entries say beside limits of the trade's texts, by the editions that the job chose, else the
 * usual ones. A function of the set of entries; each finding names its limit's source, its edition and its entries.
 */
export const jobFindings = (job: JobView): JobFinding[] => {
  const editions = jobEditions(job)
  const coldWeather = coldWeatherFindings(job, editions)
  const all = [
    ...dischargeFindings(job, editions),
    ...freshFindings(job, editions),
    ...coldWeather,
    ...temperatureFindings(job, editions, coldWeather),
    ...evaporationFindings(job, editions),
    ...samplingFindings(job),
    ...strengthFindings(job),
    ...jointFindings(job, editions),
    ...protectionFindings(job, editions, coldWeather),
  ]
  return FINDINGS.flatMap((of) => all.filter((one) => one.of === of))
}
