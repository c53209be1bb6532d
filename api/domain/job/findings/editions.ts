import type { BodyOf } from '../../entry/registry.ts'
import { CHOICES, type ChoiceName, type Editions } from '../../trade/editions.ts'
import type { JobView } from '../view.ts'
import type { EditionUsed } from './finding.ts'

type Body = BodyOf<'editions.chosen'>
/** What a job may choose; the rest of the trade's choices bears on no finding. */
export type JobChoice = Extract<ChoiceName, keyof Body>
/** The compiler compares: what an entry may say is what the trade knows. */
type Chosen = { readonly [C in JobChoice]?: Editions[C] | undefined }

/** An edition that holds for the job, and the entries that chose it: none where it is the usual one. */
export type Used<C extends JobChoice> = {
  readonly edition: Editions[C]
  readonly chosenIn: readonly string[]
}
/** Several under one choice are a conflict: findings are given for each. */
export type JobEditions = { readonly [C in JobChoice]: readonly Used<C>[] }

const usedOf = <C extends JobChoice>(job: JobView, choice: C): readonly Used<C>[] => {
  const found = new Map<Editions[C], string[]>()
  for (const { hash, value } of job.editions) {
    const chosen: Chosen = value
    const edition: Editions[C] | undefined = chosen[choice]
    if (edition !== undefined) found.set(edition, [...(found.get(edition) ?? []), hash])
  }
  if (found.size === 0) return [{ edition: CHOICES[choice].usual as Editions[C], chosenIn: [] }]
  return [...found].map(([edition, chosenIn]) => ({ edition, chosenIn }))
}

/**
 * Which editions a job is judged by: what its standing entries choose, else the usual one of each choice. Units: none.
 * Fails: never. Source: `CHOICES`.
 */
export const jobEditions = (job: JobView): JobEditions => ({
  discharge: usedOf(job, 'discharge'),
  tolerances: usedOf(job, 'tolerances'),
  coldWeather: usedOf(job, 'coldWeather'),
  placing: usedOf(job, 'placing'),
  hot: usedOf(job, 'hot'),
  evaporation: usedOf(job, 'evaporation'),
  threshold: usedOf(job, 'threshold'),
  spacingCap: usedOf(job, 'spacingCap'),
  saw: usedOf(job, 'saw'),
  service: usedOf(job, 'service'),
  cement: usedOf(job, 'cement'),
})

export const named = <C extends JobChoice>(choice: C, used: Used<C>): EditionUsed => ({
  choice,
  edition: used.edition,
  chosenIn: used.chosenIn,
})
