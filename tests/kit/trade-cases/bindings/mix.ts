import { solidFraction } from '../../../../api/domain/trade/batch.ts'
import * as e from '../../../../api/domain/trade/exposure.ts'
import { slumpForWater, thumbEffect, waterForSlump } from '../../../../api/domain/trade/gallon-rule.ts'
import { exactly, type Mass, type Measure, measure, toUnit } from '../../../../api/domain/trade/measure.ts'
import * as w from '../../../../api/domain/trade/water.ts'
import { WATER_WEIGHTS } from '../../../../api/domain/trade/water-ratio.ts'
import { minus, plus, ratio, sum, times } from '../../../../api/domain/units.ts'
import { type Binding, given, NotOfThisShape, pick, type Reader, yes } from '../bind.ts'

const numberOf = (m: { n: bigint; d: bigint } | undefined) => m && Number(m.n) / Number(m.d)
const STONES = ['3/8', '1/2', '3/4', '1', '1-1/2', '2', '3']
const stoneOf = (a: Reader) => {
  const text = a.text('nominal_max_agg')
  if (!text || !STONES.includes(text)) throw new NotOfThisShape()
  return exactly(text.replace('-', ' '), 'in')
}
const isClass = (text: string | undefined): text is e.FreezeClass => /^F[0-3]$/.test(text ?? '')
const PLACES: readonly (readonly [RegExp, e.HousePlace])[] = [
  [/^not exposed|unexposed/, 'not-exposed'],
  [/^interior slab/, 'interior-slab'],
  [/^vertical exposed|^exposed vertical/, 'vertical-exposed'],
  [/^porch|^garage|^carport|^steps/, 'flatwork-exposed'],
]
const PCA: readonly (readonly [RegExp, e.Exposure])[] = [
  [/chloride/, 'chlorides'],
  [/freezing|deicer/, 'freezing-or-deicers'],
  [/low permeability|exposed to water/, 'water'],
]
const mixLimits = (l: e.MixLimits) => ({
  max_w_cm: numberOf(l.ratio?.most),
  min_fc: l.strength.least,
})
const sacksMass = (a: Reader) => {
  const [sacks, each] = [a.of('sacks', 'number'), a.of('lb_per_sack', 'number')]
  return sacks && each && measure(times(sacks, each), 'lb')
}
/** Its key, `lb_per_gal`, is a unit and no name. */
const weightOf = (a: Reader) => a.of('', 'density')

export const MIX: readonly Binding[] = [
  {
    function: 'exposure.totalAir',
    needs: ['nominal_max_agg'],
    may: ['fc'],
    gives: (a) =>
      given(e.totalAir({ stone: stoneOf(a), specified: a.of('fc', 'pressure') }), (t) => ({
        mild: t.mild,
        moderate: t.moderate,
        severe: t.severe,
        min: t.older?.least,
        max: t.older?.most,
        min_pct: numberOf(t.older?.least),
        max_pct: numberOf(t.older?.most),
      })),
  },
  {
    function: 'exposure.exposureByPca',
    needs: ['exposure'],
    gives: (a) => mixLimits(e.exposureByPca(pick(a.text('exposure'), PCA))),
  },
  {
    function: 'exposure.exposureLimits',
    needs: ['code', 'exposure_class'],
    gives: (a) => {
      const table = pick<e.ExposureTable>(a.text('code'), [
        [/^ACI 318-1[49]/, 'ACI 318-19'],
        [/^PCA EB001/, 'PCA EB001 Table 11-3'],
      ])
      const name = a.text('exposure_class')
      if (!isClass(name)) throw new NotOfThisShape()
      return mixLimits(e.exposureLimits({ class: name, table }))
    },
  },
  {
    function: 'exposure.AIR_ABOVE_5000',
    needs: ['fc_psi_over'],
    when: (a) => a.number('fc_psi_over') === 5000,
    gives: () => ({ allowed_air_reduction_pct_points: numberOf(e.AIR_ABOVE_5000.less) }),
  },
  {
    function: 'exposure.F3_CEMENTITIOUS',
    needs: ['rule'],
    when: (a) => /cementitious limits/.test(a.text('rule') ?? ''),
    gives: () => ({
      fly_ash_max: e.F3_CEMENTITIOUS.flyAsh.most,
      fly_ash_max_pct: numberOf(e.F3_CEMENTITIOUS.flyAsh.most),
      slag_max_pct_of_cement: numberOf(e.F3_CEMENTITIOUS.slag.most),
      silica_fume_max_pct: numberOf(e.F3_CEMENTITIOUS.silicaFume.most),
      portland_min_pct: numberOf(e.F3_CEMENTITIOUS.leastPortland.least),
      total_max_pct: numberOf(e.F3_CEMENTITIOUS.all.most),
      fly_ash_plus_silica_fume_max_pct: numberOf(e.F3_CEMENTITIOUS.flyAshAndSilica.most),
    }),
  },
  {
    function: 'exposure.cementitiousFindings',
    needs: ['cement', 'fly_ash', 'slag', 'silica_fume', 'exposure_class'],
    when: (a) => a.text('exposure_class') === 'F3',
    gives: (a) =>
      given(
        e.cementitiousFindings({
          cement: a.of('cement', 'mass'),
          flyAsh: a.of('fly_ash', 'mass'),
          slag: a.of('slag', 'mass'),
          silicaFume: a.of('silica_fume', 'mass'),
        }),
        (f) => ({
          fly_ash: f.flyAsh.value,
          slag: f.slag.value,
          silica_fume: f.silicaFume.value,
          total: f.all.value,
          within_F3_limits: yes(f),
        }),
      ),
  },
  {
    function: 'exposure.houseStrength',
    needs: ['location'],
    gives: (a) => {
      const place = pick(a.text('location'), PLACES)
      return {
        negligible: e.houseStrength(place, 'negligible').least,
        moderate: e.houseStrength(place, 'moderate').least,
        severe: e.houseStrength(place, 'severe').least,
      }
    },
  },
  {
    function: 'gallon-rule.thumbEffect',
    needs: ['added'],
    gives: (a) => {
      const added = a.of('added', 'water-per-concrete')
      const rule =
        added?.unit === 'L/m3' ? 'four-litres' : /adding water/i.test(a.source) ? 'gallon-with-air' : 'gallon'
      return given(thumbEffect({ added, rule }), effectNames)
    },
  },
  {
    function: 'gallon-rule.slumpForWater',
    needs: ['added'],
    gives: (a) => given(slumpForWater({ added: a.of('added', 'density') }), (s) => ({ slump_change: s })),
  },
  {
    function: 'gallon-rule.waterForSlump',
    needs: ['slump_excess', 'batch'],
    gives: (a) => {
      const [excess, batch] = [a.of('slump_excess', 'length'), a.of('batch', 'volume')]
      if (!excess || !batch) throw new NotOfThisShape()
      // Too much slump asks for less water; the rule is told by the yard.
      const change = measure(minus(ratio(0n), excess), excess.unit)
      return given(waterForSlump({ change }), (m) => ({
        water_change: measure(times(m, toUnit(batch, 'yd3')), 'lb'),
      }))
    },
  },
  {
    function: 'water.massOfWater, water.waterCementByMass',
    needs: ['water', 'cement', ''],
    gives: (a) => ratioOf(a, a.of('cement', 'mass')),
  },
  {
    function: 'water.massOfWater, water.waterCementByMass',
    needs: ['water', '', 'sacks', 'lb_per_sack'],
    gives: (a) => ratioOf(a, sacksMass(a)),
  },
  {
    function: 'water.waterCementByMass',
    needs: ['water', 'cement'],
    may: ['fly_ash', 'slag', 'silica_fume', 'scm'],
    gives: (a) =>
      given(w.waterCementByMass({ water: a.of('water', 'mass'), cementitious: allCement(a) }), (r) => ({
        w_cm: r,
        w_c: r,
      })),
  },
  {
    function: 'water.waterCementByMass',
    needs: ['sacks', 'lb_per_sack', 'water_volume_fraction', 'water'],
    gives: (a) => {
      const [share, weight, cement] = [
        a.of('water_volume_fraction', 'number'),
        a.of('water', 'density'),
        sacksMass(a),
      ]
      if (!share || !weight) throw new NotOfThisShape()
      const water = measure(times(times(share, ratio(27n)), toUnit(weight, 'lb/ft3')), 'lb')
      return given(w.waterCementByMass({ water, cementitious: cement }), (r) => ({ cement, water, w_cm: r }))
    },
  },
  {
    function: 'water.waterForRatio',
    needs: ['w_c', 'cement'],
    may: [''],
    gives: (a) => needed(a, a.of('w_c', 'number')),
  },
  {
    function: 'water.waterForRatio',
    needs: ['w_cm', 'cement'],
    may: [''],
    gives: (a) => needed(a, a.of('w_cm', 'number')),
  },
  {
    function: 'water.allowableWater',
    needs: ['cementitious', 'water_in', 'max_w_cm'],
    may: [''],
    gives: (a) => {
      const weight = weightOf(a)
      return given(
        w.allowableWater({
          cementitious: a.of('cementitious', 'density'),
          water: a.of('water_in', 'density'),
          mostRatio: a.of('max_w_cm', 'number'),
          ...(weight ? { weight } : {}),
        }),
        (r) => ({ w_cm: r.ratio, allowable: r.more }),
      )
    },
  },
  {
    function: 'water.freeMoisture',
    needs: ['ssd_sand', 'total_moisture', 'absorption'],
    gives: (a) =>
      moisture(a.of('ssd_sand', 'mass'), a.of('total_moisture', 'share'), a.of('absorption', 'share')),
  },
  {
    function: 'water.freeMoisture',
    needs: ['ssd_sand', 'deficit'],
    // Drier than surface-dry by so much: no moisture against so much absorption.
    gives: (a) => moisture(a.of('ssd_sand', 'mass'), exactly('0', 'pct'), a.of('deficit', 'share')),
  },
  {
    function: 'water.freeMoisture',
    needs: ['design_water', 'coarse_agg', 'coarse_fsm', 'fine_agg', 'fine_fsm'],
    gives: (a) => {
      const coarse = free(a.of('coarse_agg', 'mass'), a.of('coarse_fsm', 'share'))
      const fine = free(a.of('fine_agg', 'mass'), a.of('fine_fsm', 'share'))
      const design = a.of('design_water', 'volume')
      const mass = w.massOfWater({ volume: design, weight: WATER_WEIGHTS.course })
      if (!mass.ok || !coarse || !fine) throw new NotOfThisShape()
      const all = plus(coarse, fine)
      const gallons = (m: { n: bigint; d: bigint }) => measure(times(m, ratio(100n, 833n)), 'gal')
      return {
        coarse_water: coarse,
        fine_water: fine,
        total_free_water: measure(all, 'lb'),
        free_water: gallons(all),
        batch_water: gallons(minus(mass.value, all)),
      }
    },
  },
  {
    function: 'water.freeMoisture',
    needs: ['sand', 'sand_fsm', 'gravel', 'gravel_absorption'],
    gives: (a) => {
      const sand = free(a.of('sand', 'mass'), a.of('sand_fsm', 'share'))
      const gravel = w.freeMoisture({
        ssd: a.of('gravel', 'mass'),
        total: exactly('0', 'pct'),
        absorption: a.of('gravel_absorption', 'share'),
      })
      if (!sand || !gravel.ok) throw new NotOfThisShape()
      return { net_water: measure(plus(sand, gravel.value.water), 'lb') }
    },
  },
  {
    function: 'batch.solidFraction',
    needs: ['dry_rodded', 'sg', 'water'],
    gives: (a) =>
      given(
        solidFraction({
          dryRodded: a.of('dry_rodded', 'density'),
          specificGravity: a.of('sg', 'number'),
          water: a.of('water', 'density'),
        }),
        (s) => ({ solid_fraction: s, void_fraction: 1 - (numberOf(s) ?? 0) }),
      ),
  },
  {
    function: 'water.COURSE_CONSTANTS',
    needs: ['set'],
    when: (a) => a.text('set') === 'course constants',
    gives: () => ({
      lb_per_gal: numberOf(w.COURSE_CONSTANTS.waterWeight),
      lb_per_ft3_water: numberOf(w.COURSE_CONSTANTS.waterDensity),
      gal_per_ft3: numberOf(w.COURSE_CONSTANTS.gallonsPerFoot3),
      ft3_per_yd3: numberOf(w.COURSE_CONSTANTS.feet3PerYard3),
      lb_per_sack: numberOf(w.COURSE_CONSTANTS.sack),
    }),
  },
]

const needed = (a: Reader, ratioAsked: Measure<'one'> | undefined) => {
  const weight = weightOf(a)
  const asked = { ratio: ratioAsked, cementitious: a.of('cement', 'mass'), ...(weight ? { weight } : {}) }
  return given(w.waterForRatio(asked), (r) => ({
    water_lb: numberOf(r.mass),
    water_gal: numberOf(r.volume),
    water: r.mass,
  }))
}

/** Cement and whatever counts with it. */
const allCement = (a: Reader): Mass | undefined => {
  const all = ['cement', 'fly_ash', 'slag', 'silica_fume', 'scm'].flatMap((name) => a.of(name, 'mass') ?? [])
  return all.length === 0 ? undefined : measure(sum(all.map((one) => toUnit(one, 'lb'))), 'lb')
}

const ratioOf = (a: Reader, cementitious: Mass | undefined) => {
  const weight = weightOf(a)
  const water = w.massOfWater({ volume: a.of('water', 'volume'), ...(weight ? { weight } : {}) })
  if (!water.ok) return { refused: water.problem }
  return given(w.waterCementByMass({ water: water.value, cementitious }), (r) => ({
    w_cm: r,
    w_c: r,
    water: water.value,
  }))
}

const moisture = (
  ...[ssd, total, absorption]: [Mass | undefined, Measure<'pct'> | undefined, Measure<'pct'> | undefined]
) =>
  given(w.freeMoisture({ ssd, total, absorption }), (m) => ({
    free_moisture: m.free,
    free_water: m.water,
    water_deficit: measure(minus(ratio(0n), m.water), 'lb'),
    batch_sand: m.batch,
  }))

const free = (mass: Mass | undefined, share: Measure<'pct'> | undefined) => {
  const m = w.freeMoisture({ ssd: mass, total: share, absorption: exactly('0', 'pct') })
  return m.ok ? m.value.water : undefined
}

const effectNames = (t: NonNullable<Extract<ReturnType<typeof thumbEffect>, { ok: true }>['value']>) => ({
  slump_change: t.slump,
  slump_increase: t.slump,
  strength_loss_min: t.strengthLossLeast,
  strength_loss_max: t.strengthLossMost,
  shrinkage_increase: t.shrinkage,
  air_increase_min: t.airLeast,
  air_increase_max: t.airMost,
  cement_bags_wasted: numberOf(t.cement),
  cement_loss_bags: numberOf(t.cement),
  cement_wasted_bags: numberOf(t.cement),
})
