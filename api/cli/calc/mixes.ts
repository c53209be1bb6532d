import { CHOICES } from '../../domain/trade/editions.ts'
import * as exposure from '../../domain/trade/exposure.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { answer, calculation, found, group, value } from './calculation.ts'
import { choice, maybe, measured, usually, yesNo } from './field.ts'

export const MIXES = group('Mix', [
  calculation(
    'exposure',
    'most w/cm and least strength of a freeze–thaw class',
    {
      class: choice(['F0', 'F1', 'F2', 'F3'], 'F0 none; F1 some water; F2 much water; F3 with deicers'),
      table: choice(CHOICES.exposure.of, 'whose', CHOICES.exposure.usual),
      plain: yesNo('plain concrete in F3'),
    },
    'class=F3',
    (g) => {
      const limits = exposure.exposureLimits({
        class: g.class ?? 'F0',
        table: g.table ?? 'ACI 318-19',
        plain: g.plain ?? false,
      })
      return answer({ ok: true, value: limits }, [limits.strength.source], mixRows)
    },
  ),
  calculation(
    'exposure-pca',
    'the same by what the concrete meets',
    { meets: choice(['water', 'freezing-or-deicers', 'chlorides'], 'what it meets') },
    'meets=freezing-or-deicers',
    (g) => answer({ ok: true, value: exposure.exposureByPca(g.meets ?? 'water') }, ['pca-9-1'], mixRows),
  ),
  calculation(
    'air',
    'total air by stone, for mild, moderate and severe frost',
    {
      stone: measured('length', 'nominal maximum: 3/8, 1/2, 3/4, 1, 1-1/2, 2 or 3 in', RANGES.aggregate),
      specified: maybe(measured('pressure', 'f′c', RANGES.strength)),
    },
    'stone=3/4in',
    (g) =>
      answer(
        exposure.totalAir({ stone: g.stone, specified: g.specified }),
        (t) => [t.source, ...(t.older ? (['ufgs-03311'] as const) : [])],
        (t) => [
          ...value('mild', t.mild),
          ...value('moderate', t.moderate),
          ...value('severe', t.severe),
          ...value('older range from', t.older?.least),
          ...value('older range to', t.older?.most),
        ],
      ),
  ),
  calculation(
    'cementitious',
    'shares of fly ash, slag and silica fume beside class F3’s most',
    {
      cement: measured('mass', 'portland cement', RANGES.someMass),
      'fly-ash': usually(measured('mass', 'fly ash', RANGES.batchMass), '0lb'),
      slag: usually(measured('mass', 'slag', RANGES.batchMass), '0lb'),
      'silica-fume': usually(measured('mass', 'silica fume', RANGES.batchMass), '0lb'),
    },
    'cement=436lb fly-ash=131lb',
    (g) =>
      answer(
        exposure.cementitiousFindings({
          cement: g.cement,
          flyAsh: g['fly-ash'],
          slag: g.slag,
          silicaFume: g['silica-fume'],
        }),
        ['aci-318-f3', 'aci-318-f3-sum'],
        (f) => found(f.flyAsh, f.slag, f.silicaFume, f.all, f.flyAshAndSilica),
      ),
  ),
  calculation(
    'house',
    'least strength of a place in a house; local codes amend it',
    {
      place: choice(
        ['not-exposed', 'interior-slab', 'vertical-exposed', 'flatwork-exposed'],
        'the last: porches, steps, carport and garage slabs',
      ),
      weathering: choice(['negligible', 'moderate', 'severe'], 'on the code’s map'),
    },
    'place=flatwork-exposed weathering=severe',
    (g) =>
      answer(
        { ok: true, value: exposure.houseStrength(g.place ?? 'not-exposed', g.weathering ?? 'severe') },
        ['irc-r402-2'],
        (l) => value('strength at least', l.least),
      ),
  ),
])

const mixRows = (l: exposure.MixLimits) => [
  ...value('w/cm at most', l.ratio?.most),
  ...value('strength at least', l.strength.least),
]
