import * as z from 'zod/mini'
import { fieldFacts, quantity, signedQuantity, words } from '../fields.ts'
import { kind } from '../kind.ts'

const humidity = quantity('pct')
const wind = quantity('mph', 'km/h', 'm/s')
fieldFacts.add(humidity, { label: 'humidity', unit: 'pct', step: '1', plain: ['5', '100'] })
fieldFacts.add(wind, { label: 'wind', unit: 'mph', step: '1', plain: ['0', '50'] })

/** Weather with where it comes from: a gauge here, a service's station so far away, or somebody's feeling. */
export const weatherObserved = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    source: z.enum(['gauge-here', 'service', 'by-feel']),
    station: z.optional(words(80)),
    distance: z.optional(quantity('mi', 'km')),
    air: z.optional(signedQuantity('degF', 'degC')),
    humidity: z.optional(humidity),
    wind: z.optional(wind),
    windHeight: z.optional(quantity('in', 'ft', 'm')),
    gust: z.optional(wind),
  }),
)
