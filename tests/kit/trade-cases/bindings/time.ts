import { type DischargeRule, dischargeFinding } from '../../../../api/domain/trade/discharge.ts'
import { exactly } from '../../../../api/domain/trade/measure.ts'
import { mixingAfterWater, PRELIMINARY_SAMPLE } from '../../../../api/domain/trade/sampling.ts'
import { type Binding, given, pick, type Reader, yes } from '../bind.ts'

const RULES: readonly (readonly [RegExp, DischargeRule])[] = [
  [/C94-98/, 'C94-98'],
  [/C94-(?:1[3-9]|20)/, 'C94-13'],
  [/C94-2[1-9]/, 'C94-21'],
]
const LIMITS = [
  'ticket_time_limit',
  'stated_limit',
  'specified_limit',
  'specified_time_limit',
  'order_time_limit',
]
const find = (a: Reader) => {
  const minutes = a.either(LIMITS, 'time')
  const revolutions = a.of('ticket_revolution_limit', 'number')
  return dischargeFinding({
    rule: pick(a.text('edition'), RULES),
    event: 'discharge-ended',
    elapsed: a.of('elapsed', 'time'),
    revolutions: a.of('drum_revolutions', 'number'),
    ...(minutes || revolutions
      ? { stated: { by: 'ticket', ...(minutes ? { minutes } : {}), ...(revolutions ? { revolutions } : {}) } }
      : {}),
    ...(a.raw('purchaser_waives') === true
      ? {
          waiver: {
            by: 'purchaser',
            at: '2026-04-21T10:00-05:00',
            placeableWithoutWater: a.raw('placeable_without_added_water') as boolean | undefined,
          },
        }
      : {}),
  })
}

export const TIME: readonly Binding[] = [
  {
    function: 'discharge.dischargeFinding',
    needs: ['edition', 'elapsed'],
    may: [
      'drum_revolutions',
      ...LIMITS,
      'ticket_revolution_limit',
      'purchaser_waives',
      'placeable_without_added_water',
    ],
    gives: (a) =>
      given(find(a), (f) => {
        const inside = yes(f)
        return {
          within_default_limit: inside,
          within_limit: inside,
          within: inside,
          status: f.verdict,
          acceptable_by_waiver: f.waiver ? f.waivable === true : false,
        }
      }),
  },
  {
    function: 'sampling.PRELIMINARY_SAMPLE',
    needs: ['purpose'],
    when: (a) => /slump.*adjust/.test(a.text('purpose') ?? ''),
    gives: () => ({ max_discharge_before_adjustment: PRELIMINARY_SAMPLE.most }),
  },
  {
    function: 'sampling.mixingAfterWater',
    needs: ['water_added_on_site'],
    when: (a) => a.raw('water_added_on_site') === true,
    gives: () =>
      given(mixingAfterWater(exactly('0', 'one')), ({ limit }) => ({
        min_extra_revolutions_at_mixing_speed: limit?.least,
      })),
  },
]
