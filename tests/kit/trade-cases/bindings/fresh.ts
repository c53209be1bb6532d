import { placingLimit } from '../../../../api/domain/trade/cold.ts'
import * as d from '../../../../api/domain/trade/density.ts'
import { compareTo } from '../../../../api/domain/trade/finding.ts'
import { type Length, toUnit } from '../../../../api/domain/trade/measure.ts'
import * as s from '../../../../api/domain/trade/sampling.ts'
import { SLUMP_TEST, slumpReading } from '../../../../api/domain/trade/slump-test.ts'
import * as strength from '../../../../api/domain/trade/strength.ts'
import { airFinding, type SlumpForm, slumpTolerance } from '../../../../api/domain/trade/tolerance.ts'
import { type Binding, given, pick, yes } from '../bind.ts'

const FORMS: readonly (readonly [RegExp, SlumpForm])[] = [
  [/target|nominal/, 'target'],
  [/max/, 'maximum'],
]

export const FRESH: readonly Binding[] = [
  {
    function: 'tolerance.slumpTolerance',
    needs: ['specified_slump', 'form'],
    may: ['measured_slump'],
    gives: (a) =>
      given(
        slumpTolerance({ specified: a.of('specified_slump', 'length'), form: pick(a.text('form'), FORMS) }),
        (t) => ({
          min: t.least,
          max: t.most,
          within: yes(
            compareTo(
              'slump',
              a.of('measured_slump', 'length') && toUnit(a.of('measured_slump', 'length') as Length, 'in'),
              t,
            ),
          ),
        }),
      ),
  },
  {
    function: 'tolerance.airFinding',
    needs: ['specified_air'],
    may: ['tolerance', 'measured_air'],
    gives: (a) =>
      given(
        airFinding({
          specified: a.of('specified_air', 'share'),
          tolerance: a.of('tolerance', 'share'),
          measured: a.of('measured_air', 'share'),
        }),
        (f) => ({ within: yes(f), in_spec: yes(f), min: f.limit?.least, max: f.limit?.most }),
      ),
  },
  {
    function: 'cold.placingLimit',
    needs: ['least_section'],
    gives: (a) =>
      given(placingLimit({ section: a.of('least_section', 'length'), rule: 'c94' }), (l) => ({
        min_concrete_temp: l.least,
      })),
  },
  {
    function: 'density.density',
    needs: ['full_measure', 'empty_measure', 'measure_volume'],
    gives: (a) =>
      given(
        d.density({
          full: a.of('full_measure', 'mass'),
          empty: a.of('empty_measure', 'mass'),
          measure: a.of('measure_volume', 'volume'),
        }),
        (density) => ({ density }),
      ),
  },
  {
    function: 'density.batchYield',
    needs: ['batch_mass', 'density'],
    may: ['design_volume'],
    gives: (a) =>
      given(
        d.batchYield({
          batch: a.of('batch_mass', 'mass'),
          density: a.of('density', 'density'),
          design: a.of('design_volume', 'volume'),
        }),
        (y) => ({ yield: y.yield, relative_yield: y.relative }),
      ),
  },
  {
    function: 'density.gravimetricAir',
    needs: ['theoretical_airfree_density', 'density'],
    gives: (a) =>
      given(
        d.gravimetricAir({
          airFree: a.of('theoretical_airfree_density', 'density'),
          density: a.of('density', 'density'),
        }),
        (air) => ({ gravimetric_air: air }),
      ),
  },
  {
    function: 'density.cementContent',
    needs: ['cement_in_batch', 'yield'],
    gives: (a) =>
      given(
        d.cementContent({ cement: a.of('cement_in_batch', 'mass'), yield: a.of('yield', 'volume') }),
        (c) => ({
          cement_content: c,
        }),
      ),
  },
  {
    function: 'density.DENSITY_REPORT',
    needs: ['report'],
    when: (a) => a.text('report') === 'C138',
    gives: () => ({
      density: d.DENSITY_REPORT.density,
      yield: d.DENSITY_REPORT.yield,
      relative_yield: d.DENSITY_REPORT.relativeYield,
      cement: d.DENSITY_REPORT.cement,
      air: d.DENSITY_REPORT.air,
    }),
  },
  {
    function: 'density.VOLUME_BASIS',
    needs: ['purpose'],
    when: (a) => /volume basis/.test(a.text('purpose') ?? ''),
    gives: () => ({
      density_tests_required: d.VOLUME_BASIS.tests,
      different_trucks: d.VOLUME_BASIS.differentTrucks,
    }),
  },
  {
    function: 'density.yieldOfAir',
    needs: ['air_change'],
    gives: (a) =>
      given(d.yieldOfAir({ change: a.of('air_change', 'share') }), (v) => ({
        relative_yield_change_ft3_per_yd3: Number(v.n) / Number(v.d),
      })),
  },
  {
    function: 'density.relativeYield',
    needs: ['ordered', 'received'],
    gives: (a) =>
      given(
        d.relativeYield({ actual: a.of('received', 'volume'), design: a.of('ordered', 'volume') }),
        (r) => ({
          relative_yield: r,
          ft3_per_yd3: (27 * Number(r.n)) / Number(r.d),
        }),
      ),
  },
  {
    function: 'density.relativeYield',
    needs: ['design', 'actual'],
    gives: (a) =>
      given(d.relativeYield({ actual: a.of('actual', 'volume'), design: a.of('design', 'volume') }), (r) => ({
        percent_of_design: (100 * Number(r.n)) / Number(r.d),
        relative_yield: r,
      })),
  },
  {
    function: 'density.pressureAir',
    needs: ['apparent_air_A1', 'agg_correction_G'],
    may: ['spec_min', 'spec_max'],
    gives: (a) =>
      given(
        d.pressureAir({
          apparent: a.of('apparent_air_A1', 'share'),
          correction: a.of('agg_correction_G', 'share'),
        }),
        (air) => {
          const [least, most] = [a.of('spec_min', 'share'), a.of('spec_max', 'share')] as never[]
          const limit = least && most ? { least, most, source: 'order' as const } : undefined
          return { air, in_spec: yes(compareTo('air', air, limit)) }
        },
      ),
  },
  {
    function: 'slump-test.SLUMP_TEST',
    needs: ['test'],
    when: (a) => a.text('test') === 'slump',
    gives: () => ({
      applicable_above: SLUMP_TEST.applicableAbove,
      applicable_below: SLUMP_TEST.applicableBelow,
      report_to: SLUMP_TEST.reportTo,
      start_within: SLUMP_TEST.startWithin,
      start_within_min: Number(SLUMP_TEST.startWithin.n),
      complete_within_min: Number(SLUMP_TEST.completeWithin.n) / Number(SLUMP_TEST.completeWithin.d),
      mold_height: SLUMP_TEST.moldHeight,
      mold_base: SLUMP_TEST.moldBase,
      mold_top: SLUMP_TEST.moldTop,
      rods_per_layer: SLUMP_TEST.rodsPerLayer,
      layers: SLUMP_TEST.layers,
    }),
  },
  {
    function: 'slump-test.slumpReading',
    needs: ['measured_slump'],
    gives: (a) =>
      given(slumpReading({ measured: a.of('measured_slump', 'length') }), (r) => ({
        reported_slump: r.reported,
        applicable: yes(r.range),
      })),
  },
  {
    function: 'sampling.SAMPLING',
    needs: ['test'],
    when: (a) => a.text('test') === 'sampling',
    gives: () => ({
      start_slump_temp_air_within: s.SAMPLING.testsWithin,
      start_molding_within: s.SAMPLING.moldingWithin,
      min_sample: s.SAMPLING.leastSample,
      exclude_first: s.SAMPLING.firstShare,
      exclude_last: s.SAMPLING.lastShare,
      min_portions: s.SAMPLING.portions,
      max_between_portions: s.SAMPLING.portionsWithin,
    }),
  },
  {
    function: 'sampling.samplingFindings',
    needs: [/^minutes_from_.*_to_(?:slump|temperature|temp|air|tests?)(?:_start)?$/],
    gives: (a) => onTime('toTests', { toTests: minutes(a.like(/^minutes_from/, 'number')) }),
  },
  {
    function: 'sampling.samplingFindings',
    needs: [/^minutes_from_.*_to_mold/],
    gives: (a) => onTime('toMolding', { toMolding: minutes(a.like(/^minutes_from/, 'number')) }),
  },
  {
    function: 'sampling.samplingFindings',
    needs: [/^minutes_between_.*portion/],
    gives: (a) =>
      onTime('betweenPortions', { betweenPortions: minutes(a.like(/^minutes_between/, 'number')) }),
  },
  {
    function: 'sampling.TEMPERATURE_TEST',
    needs: ['test'],
    when: (a) => a.text('test') === 'temperature',
    gives: () => ({
      min_cover: s.TEMPERATURE_TEST.leastCover,
      min_time: s.TEMPERATURE_TEST.leastTime,
      min_time_min: Number(s.TEMPERATURE_TEST.leastTime.n),
      read_within: s.TEMPERATURE_TEST.readWithin,
      read_within_min: Number(s.TEMPERATURE_TEST.readWithin.n),
      accuracy: s.TEMPERATURE_TEST.accuracy,
      report_to: s.TEMPERATURE_TEST.reportTo,
    }),
  },
  {
    function: 'sampling.needsCheckTest',
    needs: ['first_test'],
    gives: (a) => {
      const outside = pick(a.text('first_test'), [
        [/outside/, 'outside'],
        [/inside|within/, 'inside'],
      ] as const)
      return {
        check_test_required: s.needsCheckTest({
          of: 'slump',
          value: undefined,
          limit: undefined,
          verdict: outside,
        }),
        slump_95pct_repeatability: s.CHECK_TEST.repeatability,
      }
    },
  },
  {
    function: 'strength.CYLINDER_CURING',
    needs: ['practice'],
    when: (a) => /standard curing/.test(a.text('practice') ?? ''),
    gives: () => ({
      initial_min: strength.CYLINDER_CURING.initialLeast,
      initial_max: strength.CYLINDER_CURING.initialMost,
      initial_max_F: Number(strength.CYLINDER_CURING.initialMost.n),
      initial_max_h: Number(strength.CYLINDER_CURING.initialWithin.n),
      high_strength_from: strength.CYLINDER_CURING.highStrengthFrom,
      hs_min: strength.CYLINDER_CURING.highLeast,
      hs_max: strength.CYLINDER_CURING.highMost,
      final_mid: strength.CYLINDER_CURING.finalMiddle,
      final_tol: strength.CYLINDER_CURING.finalTolerance,
      final_tol_F:
        Number(strength.CYLINDER_CURING.finalTolerance.n) / Number(strength.CYLINDER_CURING.finalTolerance.d),
    }),
  },
  {
    function: 'strength.initialCuring',
    needs: ['specified_strength', 'initial_cure_temp'],
    gives: (a) =>
      given(
        strength.initialCuring({
          specified: a.of('specified_strength', 'pressure'),
          coldest: a.of('initial_cure_temp', 'temperature'),
          warmest: a.of('initial_cure_temp', 'temperature'),
        }),
        (c) => ({ in_range: yes(c) }),
      ),
  },
  {
    function: 'strength.finalCuring',
    needs: ['final_cure_temp'],
    may: ['specified_strength'],
    gives: (a) =>
      given(strength.finalCuring(a.of('final_cure_temp', 'temperature')), (f) => ({ in_range: yes(f) })),
  },
  {
    function: 'strength.strengthAcceptance',
    needs: ['fc', 'tests'],
    gives: (a) =>
      given(
        strength.strengthAcceptance({
          specified: a.of('fc', 'pressure'),
          tests: a.list('tests', 'pressure').filter((one) => one !== undefined),
        }),
        (r) => ({
          running_avg3: r.runningMeans,
          criterion_a: yes({ verdict: r.criterionA }),
          criterion_b: yes({ verdict: r.criterionB }),
          satisfactory: yes({ verdict: r.overall }),
        }),
      ),
  },
  {
    function: 'strength.strengthAcceptance',
    needs: ['fc', 'avg3'],
    gives: (a) => {
      // A mean of three that is known stands for three tests of that mean.
      const mean = a.of('avg3', 'pressure')
      const tests = mean ? [mean, mean, mean] : undefined
      return given(strength.strengthAcceptance({ specified: a.of('fc', 'pressure'), tests }), (r) => ({
        criterion_a: yes({ verdict: r.criterionA }),
        automatic_removal: r.automaticRemoval,
      }))
    },
  },
  {
    function: 'strength.strengthAcceptance',
    needs: ['fc', 'single_test'],
    gives: (a) => {
      const test = a.of('single_test', 'pressure')
      return given(
        strength.strengthAcceptance({ specified: a.of('fc', 'pressure'), tests: test ? [test] : undefined }),
        (r) => ({ criterion_b: yes({ verdict: r.criterionB }), min_single: r.leastSingle }),
      )
    },
  },
  {
    function: 'strength.strengthTest',
    needs: ['fc', 'age', 'cylinder'],
    gives: (a) => {
      const cylinder = a.of('cylinder', 'pressure')
      return given(
        strength.strengthTest({
          cylinders: cylinder ? [cylinder] : undefined,
          size: '6x12',
          age: a.of('age', 'time'),
        }),
        (t) => ({ usable_for_acceptance: t.forAcceptance }),
      )
    },
  },
  {
    function: 'strength.coreFindings',
    needs: ['fc', 'cores'],
    gives: (a) =>
      given(
        strength.coreFindings({
          specified: a.of('fc', 'pressure'),
          cores: a.list('cores', 'pressure').filter((one) => one !== undefined),
        }),
        (c) => ({
          average: c.mean.value,
          average_ok: yes(c.mean),
          all_ok: c.singles.every((one) => yes(one) === true),
          acceptable: yes(c),
          satisfactory: yes(c),
        }),
      ),
  },
  {
    function: 'strength.testsForDay',
    needs: ['volume'],
    may: ['area', 'slab_area'],
    when: (a) => a.has('area') || a.has('slab_area'),
    gives: (a) =>
      given(
        strength.testsForDay({
          volume: a.of('volume', 'volume'),
          area: a.either(['area', 'slab_area'], 'area'),
        }),
        (n) => ({
          min_tests: n,
          tests_min: n,
          tests: n,
          tests_required: n,
        }),
      ),
  },
  {
    function: 'strength.TEST_RATE',
    needs: ['rule'],
    when: (a) => /frequency/.test(a.text('rule') ?? ''),
    gives: () => ({
      per_day: strength.TEST_RATE.perDay,
      per: strength.TEST_RATE.volume,
      one_per_yd3: Number(strength.TEST_RATE.volume.n),
      one_per_ft2: Number(strength.TEST_RATE.area.n),
    }),
  },
]

const minutes = (m: { n: bigint; d: bigint } | undefined) => m && { n: m.n, d: m.d, unit: 'min' as const }
const onTime = (which: string, of: s.Sampling) =>
  given(s.samplingFindings(of), (all) => ({ on_time: yes(all.find((f) => f.of === which)!) }))
