import { minutesFrom, readWallTime } from '../../domain/trade/clock.ts'
import { dischargeFinding } from '../../domain/trade/discharge.ts'
import { CHOICES } from '../../domain/trade/editions.ts'
import { slumpForWater, thumbEffect, waterForSlump } from '../../domain/trade/gallon-rule.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { mixingAfterWater } from '../../domain/trade/sampling.ts'
import * as water from '../../domain/trade/water.ts'
import { answer, calculation, found, group, value } from './calculation.ts'
import { choice, list, maybe, measured, tuple, usually, words, yesNo } from './field.ts'

const zone = maybe(words('IANA zone, where a time has no offset', 'America/Chicago'))
const time = (says: string) => words(says, '2026-04-21T08:21 or 2026-04-21T08:21-05:00')
const weight = usually(
  measured('density', 'what a gallon weighs: 8.34 by custom, also 8.33 and 8.345', RANGES.waterWeight),
  '8.34lb/gal',
)
const content = (says: string) => measured('density', says, RANGES.content)
const someWater = (says: string) => measured('mass', says, RANGES.waterMass)
const CAUTION = 'A rule of thumb for a caution, never a strength: no one can work out what a slab lost.'

export const LOADS = group('Time and water', [
  calculation(
    'minutes',
    'from one event to another, across midnight and the nights that change clocks',
    { from: time('batched, or the earlier event'), until: time('the later event'), zone },
    'from=2026-10-31T23:40 until=2026-11-01T03:10 zone=America/Chicago',
    (g) => {
      const from = readWallTime('/from', g.from, g.zone)
      if (!from.ok) return from
      const until = readWallTime('/until', g.until, g.zone)
      if (!until.ok) return until
      return answer(minutesFrom(from.value, until.value), ['our-choice'], (m) => value('minutes', m))
    },
  ),
  calculation(
    'edge-gap',
    'how long an edge stood between two loads',
    { ended: time('the discharge before'), started: time('the next one'), zone },
    'ended=2026-04-21T08:08-05:00 started=2026-04-21T09:45-05:00',
    (g) => {
      const ended = readWallTime('/ended', g.ended, g.zone)
      if (!ended.ok) return ended
      const started = readWallTime('/started', g.started, g.zone)
      if (!started.ok) return started
      return answer(
        minutesFrom(ended.value, started.value),
        ['our-choice'],
        (m) => value('the edge stood', m),
        ['No source fixes these minutes: whether the edge is still plastic decides.'],
      )
    },
  ),
  calculation(
    'discharge',
    'minutes and drum turns against the limit that holds',
    {
      elapsed: measured('time', 'from batching to the limit’s event', RANGES.minutes),
      event: choice(['discharge-ended', 'discharge-started'], 'what the limit runs to', 'discharge-ended'),
      limit: maybe(measured('time', 'as the ticket or the order states it', RANGES.limitMinutes)),
      by: choice(['ticket', 'order'], 'who states it', 'ticket'),
      turns: maybe(measured('number', 'revolutions on the ticket', RANGES.revolutions)),
      'turns-limit': maybe(measured('number', 'revolutions that are stated', RANGES.revolutions)),
      rule: choice(
        CHOICES.discharge.of,
        'whose rule; the older ones only where someone chose them',
        CHOICES.discharge.usual,
      ),
      waived: maybe(words('by whom', 'a name')),
      at: maybe(words('when it was waived', '2026-04-21T09:40-05:00')),
      placeable: yesNo('whether it could still be placed with no more water'),
    },
    'elapsed=118min limit=90min',
    (g) =>
      answer(
        dischargeFinding({
          rule: g.rule ?? 'C94-21',
          event: g.event ?? 'discharge-ended',
          elapsed: g.elapsed,
          revolutions: g.turns,
          ...(g.limit || g['turns-limit']
            ? {
                stated: {
                  by: g.by ?? 'ticket',
                  ...(g.limit ? { minutes: g.limit } : {}),
                  ...(g['turns-limit'] ? { revolutions: g['turns-limit'] } : {}),
                },
              }
            : {}),
          ...(g.waived
            ? {
                waiver: {
                  by: g.waived,
                  at: g.at,
                  placeableWithoutWater: g.placeable,
                },
              }
            : {}),
        }),
        (f) => [
          f.minutes.limit?.source ??
            ({ 'C94-21': 'c94-21', 'C94-13': 'c94-13', 'C94-98': 'c94-98' } as const)[f.rule],
        ],
        (f) => [
          ...found(f.minutes, f.revolutions),
          ...value('event', f.event),
          ...value('by the rule of', f.rule),
          ...value('waived', f.waiver && `by ${f.waiver.by}, ${f.waiver.at ?? 'at a time not recorded'}`),
          ...value('placeable with no more water', f.waivable),
        ],
      ),
  ),
  calculation(
    'turns',
    'drum turns since site water',
    { turns: measured('number', 'at mixing speed', RANGES.revolutions) },
    'turns=30',
    (g) => answer(mixingAfterWater(g.turns), ['c94-site-water'], (f) => found(f)),
  ),
  calculation(
    'water-mass',
    'what a volume of water weighs',
    { volume: measured('volume', 'of water', RANGES.waterVolume), weight },
    'volume=38.6gal weight=8.33lb/gal',
    (g) =>
      answer(water.massOfWater(given({ volume: g.volume }, g.weight)), ['water-trade'], (m) =>
        value('water', m),
      ),
  ),
  calculation(
    'water-cement',
    'water–cement ratio by mass',
    { water: someWater('all of it'), cementitious: measured('mass', 'all of it', RANGES.someMass) },
    'water=261lb cementitious=580lb',
    (g) => answer(water.waterCementByMass(g as never), ['arithmetic'], (r) => value('w/cm', r)),
  ),
  calculation(
    'water-for-ratio',
    'all water of a batch that has a w/cm',
    {
      ratio: measured('number', 'w/cm', RANGES.ratio),
      cementitious: measured('mass', 'all of it', RANGES.someMass),
      weight,
    },
    'ratio=0.45 cementitious=600lb',
    (g) =>
      answer(
        water.waterForRatio(given({ ratio: g.ratio, cementitious: g.cementitious }, g.weight)),
        ['arithmetic', 'water-trade'],
        (w) => [
          ...value('water', w.mass),
          ...value('volume', w.volume),
          ...value('a gallon weighs', w.weight),
        ],
      ),
  ),
  calculation(
    'total-water',
    'all mixing water of a batch; zero only where it is zero',
    {
      metered: someWater('metered at the plant'),
      moisture: someWater('free on the aggregate'),
      ice: someWater('ice'),
      wash: someWater('left in the drum'),
      site: someWater('added on site'),
    },
    'metered=1900lb moisture=48lb ice=0lb wash=0lb site=100lb',
    (g) =>
      answer(
        water.totalWater({
          metered: g.metered,
          freeMoisture: g.moisture,
          ice: g.ice,
          wash: g.wash,
          site: g.site,
        }),
        ['cip-26'],
        (m) => value('water', m),
      ),
  ),
  calculation(
    'allowable',
    'water that may go in before the most w/cm: a cross-check of the ticket’s allowance',
    {
      cementitious: content('all of it'),
      water: measured('density', 'in it now', RANGES.waterContent),
      most: measured('number', 'most w/cm', RANGES.ratio),
      weight,
    },
    'cementitious=580lb/yd water=243.5lb/yd most=0.45',
    (g) =>
      answer(
        water.allowableWater(
          given({ cementitious: g.cementitious, water: g.water, mostRatio: g.most }, g.weight),
        ),
        ['arithmetic', 'water-trade'],
        (a) => [
          ...value('w/cm now', a.ratio),
          ...value('more', a.more),
          ...value('a gallon weighs', a.weight),
        ],
        ['What the ticket prints is the allowance. Below zero: so much is in it too much already.'],
      ),
  ),
  calculation(
    'site-water',
    'gallons that went in against the ticket’s allowance',
    {
      allowed: measured('volume', 'on the ticket', RANGES.waterVolume),
      added: measured('volume', 'in all', RANGES.waterVolume),
    },
    'allowed=16gal added=20gal',
    (g) =>
      answer(water.allowanceUse(g as never), ['ticket'], (u) => [
        ...value('left', u.left),
        ...value('over', u.over),
      ]),
  ),
  calculation(
    'parts',
    'w/cm of each part of a load, before and after each addition',
    {
      load: measured('volume', 'the load', RANGES.load),
      batched: measured('volume', 'batched water of the load', RANGES.waterVolume),
      cementitious: content('all of it'),
      additions: list(
        tuple(
          {
            water: measured('volume', 'that went in', RANGES.waterVolume),
            'in-drum': measured('volume', 'concrete in the drum then', RANGES.someVolume),
          },
          'each addition in its order',
        ),
      ),
      weight,
    },
    'load=8yd batched=233.6gal cementitious=580lb/yd additions=12gal@8yd,8gal@5yd',
    (g) =>
      answer(
        water.ratiosByPart(
          given(
            {
              load: g.load,
              batchedWater: g.batched,
              cementitious: g.cementitious,
              additions: g.additions?.map((one) => ({ water: one.water, inDrum: one['in-drum'] })),
            },
            g.weight,
          ),
        ),
        ['arithmetic', 'water-trade'],
        (parts) =>
          parts.flatMap((part, i) => [
            ...value(`part ${i + 1}`, part.placed),
            ...value('  water', part.water),
            ...value('  w/cm', part.ratio),
          ]),
      ),
  ),
  calculation(
    'water-after',
    'w/cm when so much more goes into each yard',
    {
      cementitious: content('all of it'),
      water: measured('density', 'in it now', RANGES.waterContent),
      added: measured('water-per-concrete', 'more', RANGES.perConcrete),
      weight,
    },
    'cementitious=580lb/yd water=243.5lb/yd added=1gal/yd',
    (g) =>
      answer(
        water.ratioAfter(given({ cementitious: g.cementitious, water: g.water, added: g.added }, g.weight)),
        ['arithmetic', 'water-trade'],
        (r) => value('w/cm', r),
      ),
  ),
  calculation(
    'moisture',
    'free water on an aggregate, and what to weigh out',
    {
      ssd: measured('mass', 'saturated surface-dry', RANGES.someMass),
      total: measured('share', 'total moisture', RANGES.moisture),
      absorption: measured('share', 'absorption', RANGES.moisture),
    },
    'ssd=1102lb total=5.9% absorption=0.5%',
    (g) =>
      answer(water.freeMoisture(g as never), ['moisture-course'], (m) => [
        ...value('free', m.free),
        ...value('water', m.water),
        ...value('weigh out', m.batch),
      ]),
  ),
  calculation(
    'gallon',
    'what added water is said to do: a caution',
    {
      added: measured('water-per-concrete', 'to each yard', RANGES.thumbWater),
      rule: choice(CHOICES.addedWater.of, 'whose rule of thumb', CHOICES.addedWater.usual),
    },
    'added=1gal/yd',
    (g) =>
      answer(
        thumbEffect({ added: g.added, rule: g.rule ?? 'gallon' }),
        (t) => [t.source],
        (t) => [
          ...value('slump, about', t.slump),
          ...value('said to lose at least', t.strengthLossLeast),
          ...value('said to lose at most', t.strengthLossMost),
          ...value('shrinkage, more by about', t.shrinkage),
          ...value('air, more by at least', t.airLeast),
          ...value('air, more by at most', t.airMost),
          ...value('sacks of cement, about', t.cement),
        ],
        [CAUTION],
      ),
  ),
  calculation(
    'slump-for-water',
    'slump by the rule of 10 lb an inch',
    { added: measured('density', 'water to each yard', RANGES.thumbContent) },
    'added=10lb/yd',
    (g) => answer(slumpForWater(g as never), ['ten-pound-rule'], (s) => value('slump, about', s), [CAUTION]),
  ),
  calculation(
    'water-for-slump',
    'water by the same rule',
    { change: measured('length', 'of slump, with its sign', RANGES.slumpChange) },
    'change=-2in',
    (g) => answer(waterForSlump(g as never), ['ten-pound-rule'], (w) => value('water, about', w), [CAUTION]),
  ),
])

/** What a function takes where a weight may be left to its own default. */
const given = <T extends object, W>(rest: T, w: W | undefined): T & { weight?: W } =>
  w === undefined ? rest : { ...rest, weight: w }
