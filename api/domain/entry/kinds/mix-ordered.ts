import * as z from 'zod/mini'
import { none, quantity, words } from '../fields.ts'
import { kind } from '../kind.ts'
import {
  airAsked,
  dischargeLimit,
  givenWords,
  siteWater,
  slumpAsked,
  stated,
  stone,
  strength,
} from '../mix.ts'

/** The mix as it was asked for, in the words of the order; what is absent was not recorded, not "the usual". */
export const mixOrdered = kind(
  { thread: 'job', maker: 'person', since: 2 },
  z.strictObject({
    code: z.optional(words(40)),
    strength: stated(strength),
    air: stated(airAsked),
    slump: stated(slumpAsked),
    maxWaterCement: stated(quantity('one')),
    stone: stated(stone),
    fibre: stated(z.union([givenWords(80), none])),
    admixtures: stated(z.union([givenWords(200), none])),
    limit: stated(dischargeLimit),
    siteWater: stated(siteWater),
    mayAddWater: z.optional(words(80)),
    mayWaive: z.optional(words(80)),
  }),
)
