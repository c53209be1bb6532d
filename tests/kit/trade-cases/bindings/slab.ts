import { CRACK_GUIDE, type CrackExposure } from '../../../../api/domain/trade/crack-width.ts'
import { SILICA, silicaAverage } from '../../../../api/domain/trade/dust.ts'
import { compareTo } from '../../../../api/domain/trade/finding.ts'
import * as j from '../../../../api/domain/trade/joints.ts'
import * as m from '../../../../api/domain/trade/maturity.ts'
import { type Length, type Measure, measure, toUnit } from '../../../../api/domain/trade/measure.ts'
import { layOutRectangle } from '../../../../api/domain/trade/panels.ts'
import { sawWindow } from '../../../../api/domain/trade/saw-hours.ts'
import { type Binding, given, NotOfThisShape, pick, type Reader, yes } from '../bind.ts'
import { exactNumber } from '../keys.ts'

const numberOf = (x: { n: bigint; d: bigint } | undefined) => x && Number(x.n) / Number(x.d)
const inches = (m: Length | undefined) => m && toUnit(m, 'in')
const slab = (a: Reader) => a.of('slab', 'length')
const EXPOSURES: readonly (readonly [RegExp, CrackExposure])[] = [
  [/^dry air/, 'dry-air'],
  [/^humid|soil/, 'humid'],
  [/^deic/, 'deicers'],
  [/^sea ?water/, 'seawater'],
  [/^water-retaining/, 'water-retaining'],
]

type Row = Readonly<Record<string, unknown>>
const rows = (a: Reader, name: string): Row[] => {
  const all = a.raw(name)
  if (!Array.isArray(all)) throw new NotOfThisShape()
  return all as Row[]
}
const take = (row: Row, key: string): { n: bigint; d: bigint } => {
  const value = row[key]
  if (typeof value !== 'number') throw new NotOfThisShape()
  return exactNumber(value)
}
const intervals = (a: Reader): m.Interval[] =>
  rows(a, 'intervals').map((row) => ({
    duration: measure(take(row, 'hours'), 'h'),
    temperature:
      'temp_F' in row ? measure(take(row, 'temp_F'), 'degF') : measure(take(row, 'temp_C'), 'degC'),
  }))
const constants = (a: Reader): m.ArrheniusConstants => {
  const named = (name: string, usual: Measure<'one'>) => a.of(name, 'number') ?? usual
  return {
    activation: named('Q_K', m.ARRHENIUS.c1074.activation),
    reference: named('Ts_K', m.ARRHENIUS.c1074.reference),
    kelvin: named('kelvin_offset', m.ARRHENIUS.c1074.kelvin),
  }
}

export const SLAB: readonly Binding[] = [
  {
    function: 'joints.jointSpacing',
    needs: ['slab'],
    gives: (a) =>
      given(j.jointSpacing({ thickness: slab(a), cap: /CSA/.test(a.source) ? 'csa' : '302.1r-96' }), (s) => ({
        min: s.least,
        max: s.most,
        cap: s.cap,
      })),
  },
  {
    function: 'joints.jointDepth',
    needs: ['slab'],
    gives: (a) => given(j.jointDepth({ thickness: slab(a) }), (d) => ({ min_depth: d.least })),
  },
  {
    function: 'joints.jointDepth, finding.compareTo',
    needs: ['slab', 'groove'],
    gives: (a) =>
      given(j.jointDepth({ thickness: slab(a) }), (d) => ({
        min_depth: d.least,
        deep_enough: yes(compareTo('groove', inches(a.of('groove', 'length')), d)),
      })),
  },
  {
    function: 'joints.pavementJoints',
    needs: ['slab'],
    gives: (a) =>
      given(j.pavementJoints(slab(a)), (p) => ({
        transverse: p.spacing.most,
        min_depth_fraction: numberOf(p.depth.least),
      })),
  },
  {
    function: 'joints.pcaSpacing',
    needs: ['slab'],
    gives: (a) => {
      const of = (mix: j.PcaMix) => {
        const limit = j.pcaSpacing(slab(a), mix)
        return limit.ok ? numberOf(limit.value.most) : undefined
      }
      return {
        slump3to5_agg_lt_3_4_ft: of('slump-3-5-small-stone'),
        slump3to5_agg_ge_3_4_ft: of('slump-3-5-large-stone'),
        slump_lt_4_ft: of('slump-below-4'),
      }
    },
  },
  {
    function: 'joints.UFGS_WALK',
    needs: ['work', 'slab'],
    when: (a) => a.text('work') === 'walk',
    gives: () => ({
      spacing: j.UFGS_WALK.spacing,
      depth: j.UFGS_WALK.depth,
      expansion_max: j.UFGS_WALK.expansion,
    }),
  },
  {
    function: 'joints.UFGS_CURB',
    needs: ['work'],
    when: (a) => a.text('work') === 'curb',
    gives: () => ({
      max_spacing: j.UFGS_CURB.spacing,
      depth: j.UFGS_CURB.depth,
      expansion: j.UFGS_CURB.expansion,
    }),
  },
  {
    function: 'joints.walkSpacing',
    needs: ['work', 'width'],
    when: (a) => /walk/.test(a.text('work') ?? ''),
    gives: (a) =>
      given(j.walkSpacing({ width: a.of('width', 'length') }), (s) => ({ spacing: s, cap: j.WALK_CAP })),
  },
  {
    function: 'joints.PANEL_LIMITS',
    needs: ['rule'],
    when: (a) => a.text('rule') === 'aspect',
    gives: () => ({
      max_ratio: numberOf(j.PANEL_LIMITS.ratio.most),
      preferred_max_ratio: numberOf(j.PANEL_LIMITS.preferred.most),
    }),
  },
  {
    function: 'joints.PANEL_LIMITS',
    needs: ['rule'],
    when: (a) => a.text('rule') === 'military floor slabs',
    gives: () => ({
      max_length_over_width: numberOf(j.PANEL_LIMITS.military.most),
      max_panel: j.PANEL_LIMITS.militaryArea.most,
    }),
  },
  {
    function: 'joints.panelFindings',
    needs: ['panel_long', 'panel_short'],
    gives: (a) =>
      given(
        j.panelFindings({ one: a.of('panel_long', 'length'), other: a.of('panel_short', 'length') }),
        (f) => ({
          ratio: f.ratio.value,
          ok: yes(f.ratio),
          preferred: yes(f.preferred),
        }),
      ),
  },
  {
    function: 'panels.layOutRectangle',
    needs: ['length', 'width', 'max_spacing'],
    gives: (a) =>
      given(
        layOutRectangle({
          length: a.of('length', 'length'),
          width: a.of('width', 'length'),
          mostSpacing: a.of('max_spacing', 'length'),
        }),
        (l) => ({
          panels_long: l.jointsAtX.length + 1,
          panels_short: l.jointsAtY.length + 1,
          panel_long: l.panels[0]?.width,
          panel_short: l.panels[0]?.height,
          interior_joints: l.jointsAtX.length + l.jointsAtY.length,
          panels: l.panels.length,
        }),
      ),
  },
  {
    function: 'saw-hours.sawWindow',
    needs: ['rule'],
    when: (a) => /^saw timing/.test(a.text('rule') ?? ''),
    gives: (a) => {
      const band = (...[tool, weather]: [j.JointTool, 'usual' | 'hot' | 'cold']) => {
        const window = sawWindow({ tool, weather })
        if (!window.ok) throw new NotOfThisShape()
        return window.value
      }
      if (/CSA/.test(a.text('rule') ?? '')) {
        const csa = sawWindow({ tool: 'conventional', rule: 'csa-a23.1-94' })
        return csa.ok
          ? {
              min: csa.value.from,
              max: csa.value.to,
              min_h: numberOf(csa.value.from),
              max_h: numberOf(csa.value.to),
            }
          : { refused: csa.problem }
      }
      const [usual, early] = [band('conventional', 'usual'), band('early-entry', 'usual')]
      return {
        conventional_min_h: numberOf(usual.from),
        conventional_max_h: numberOf(usual.to),
        early_min_h: numberOf(early.from),
        early_max_h: numberOf(early.to),
        early_hot_h: numberOf(band('early-entry', 'hot').from),
        early_cold_h: numberOf(band('early-entry', 'cold').from),
        depth_fraction: numberOf(j.JOINT_DEPTH.share),
      }
    },
  },
  {
    function: 'maturity.nurseSaul',
    needs: ['intervals', 'datum'],
    gives: (a) => {
      const datum = a.of('datum', 'temperature')
      return given(m.nurseSaul({ intervals: intervals(a), ...(datum ? { datum } : {}) }), (n) => ({
        maturity: n.maturity,
      }))
    },
  },
  {
    function: 'maturity.equivalentAge',
    needs: ['intervals', 'Q_K', 'Ts_K'],
    may: ['kelvin_offset'],
    gives: (a) =>
      given(m.equivalentAge({ intervals: intervals(a), constants: constants(a) }), (e) => ({
        equivalent_age: e.age,
      })),
  },
  {
    function: 'maturity.ageFactor',
    needs: ['temp', 'Q_K', 'Ts_K'],
    may: ['kelvin_offset'],
    gives: (a) =>
      given(m.ageFactor({ temperature: a.of('temp', 'temperature'), constants: constants(a) }), (f) => ({
        age_factor: f,
      })),
  },
  {
    function: 'maturity.plowmanStrength',
    needs: ['maturity', 'A', 'B'],
    gives: (a) => {
      const line = { a: a.number('A') ?? 0, b: a.number('B') ?? 0 }
      return given(
        m.plowmanStrength(a.of('maturity', 'temperature-time') as Measure<'degC.h'>, line),
        (s) => ({
          strength: s,
          pct_of_28d: s.estimate,
          strength_pct: s.estimate,
        }),
      )
    },
  },
  {
    function: 'crack-width.CRACK_GUIDE',
    needs: ['exposure'],
    gives: (a) => {
      const { most, mm } = CRACK_GUIDE[pick(a.text('exposure'), EXPOSURES)]
      return { width_in: numberOf(most), width_mm: numberOf(mm) }
    },
  },
  {
    function: 'dust.SILICA',
    needs: ['rule'],
    when: (a) => /silica/.test(a.text('rule') ?? ''),
    gives: () => ({ PEL: SILICA.permissible, AL: SILICA.action, averaging: SILICA.averaging }),
  },
  {
    function: 'dust.silicaAverage',
    needs: ['segments'],
    gives: (a) => {
      const stretches = rows(a, 'segments').map((row) => ({
        duration: measure(take(row, 'hours'), 'h'),
        silica: measure(take(row, 'ug_m3'), 'ug/m3'),
      }))
      return given(silicaAverage(stretches), (d) => ({
        twa: d.average,
        above_AL: d.atAction,
        above_PEL: d.abovePermissible,
      }))
    },
  },
]
