import * as z from 'zod/mini'
import { kind } from '../kind.ts'

const oneOf = <const T extends readonly [string, ...string[]]>(...codes: T) => z.optional(z.enum(codes))

/**
 * Which edition or source this job is judged by, for each choice that the trade’s texts differ in; of what is absent the
 * usual one holds. The codes are those of `trade/editions.ts`, which the compiler compares. A correction says anew all
 * that its entry said.
 */
export const editionsChosen = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    discharge: oneOf('C94-21', 'C94-13', 'C94-98'),
    tolerances: oneOf('c94', 'stated-only'),
    coldWeather: oneOf('306R-10', '306R-88'),
    placing: oneOf('306r-88', 'c94', 'ufgs-03301a'),
    hot: oneOf('301-20', 'older'),
    evaporation: oneOf('uno-us', 'uno-si-rounded', 'uno-si-exact', 'menzel'),
    threshold: oneOf('plain', 'silica-fume', 'overlay'),
    spacingCap: oneOf('302.1r-96', 'trade', 'csa', 'none'),
    saw: oneOf('faq-915', 'csa-a23.1-94'),
    service: oneOf('not-loaded-not-exposed', 'not-loaded-exposed', 'partly-loaded-exposed'),
    cement: oneOf('type-I-II', 'type-III'),
  }),
)
