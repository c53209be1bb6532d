import { readWallTime } from '../../domain/trade/clock.ts'
import { crackFinding } from '../../domain/trade/crack-width.ts'
import { silicaAverage } from '../../domain/trade/dust.ts'
import { CHOICES } from '../../domain/trade/editions.ts'
import { finishingBand } from '../../domain/trade/finishing-clock.ts'
import * as joints from '../../domain/trade/joints.ts'
import * as maturity from '../../domain/trade/maturity.ts'
import { layOutPanels, layOutRectangle, type PanelLayout } from '../../domain/trade/panels.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { sawTimes, sawWindow } from '../../domain/trade/saw-hours.ts'
import { answer, calculation, found, group, value } from './calculation.ts'
import { choice, list, maybe, measured, tuple, usually, words } from './field.ts'

const thickness = measured('length', 'of the slab', RANGES.thickness)
const spacing = measured('length', 'most between joints', RANGES.spacing)
const panel = (says: string) => measured('length', says, RANGES.panel)
const intervals = list(
  tuple(
    {
      duration: measured('time', 'a stretch', RANGES.hours),
      temperature: measured('temperature', 'of the concrete in it', RANGES.curingTemperature),
    },
    'stretches of curing',
  ),
)
const constants = choice(['c1074', 'ti-b-103'], 'whose constants', 'c1074')
const layoutRows = (l: PanelLayout) => [
  ...value('panels', l.panels.length),
  ...l.jointsAtX.flatMap((x) => value('joint across at', x)),
  ...l.jointsAtY.flatMap((y) => value('joint along at', y)),
  ...value('re-entrant corners', l.reentrantCorners),
  ...value('panels longer than 1.5 widths', l.slivers),
]

export const SLABS = group('Joints and curing', [
  calculation(
    'joints',
    'spacing of contraction joints by thickness',
    { thickness, cap: choice(CHOICES.spacingCap.of, 'whose cap', CHOICES.spacingCap.usual) },
    'thickness=4in',
    (g) =>
      answer(
        joints.jointSpacing({ thickness: g.thickness, cap: g.cap ?? '302.1r-96' }),
        (s) => [s.source],
        (s) => [
          ...value('from', s.least),
          ...value('to', s.most),
          ...value('cap', s.cap),
          ...value('to, under the cap', s.mostUnderCap),
        ],
      ),
  ),
  calculation(
    'joints-pca',
    'spacing in PCA’s table',
    {
      thickness,
      mix: choice(
        ['slump-3-5-small-stone', 'slump-3-5-large-stone', 'slump-below-4'],
        'stone below 3/4 in is small',
      ),
    },
    'thickness=4in mix=slump-3-5-large-stone',
    (g) =>
      answer(joints.pcaSpacing(g.thickness, g.mix ?? 'slump-below-4'), ['pca-joints'], (l) =>
        value('at most', l.most),
      ),
  ),
  calculation('pavement-joints', 'transverse joints of pavement', { thickness }, 'thickness=5in', (g) =>
    answer(joints.pavementJoints(g.thickness), ['irmca'], (p) => [
      ...value('apart, at most', p.spacing.most),
      ...value('depth, at least, of the thickness', p.depth.least),
    ]),
  ),
  calculation('walk-joints', 'joints of a walk', { width: panel('of the walk') }, 'width=5ft', (g) =>
    answer(joints.walkSpacing(g as never), ['c8-exam', 'practice'], (s) => value('apart', s)),
  ),
  calculation(
    'joint-depth',
    'least depth of a joint',
    { thickness, tool: choice(['conventional', 'early-entry'], 'how it is cut', 'conventional') },
    'thickness=4in',
    (g) =>
      answer(
        joints.jointDepth({ thickness: g.thickness, tool: g.tool ?? 'conventional' }),
        (d) => [d.source],
        (d) => value('at least', d.least),
      ),
  ),
  calculation(
    'panel',
    'long side to short side of a panel',
    { one: panel('one side'), other: panel('the other') },
    'one=12ft other=10ft',
    (g) =>
      answer(joints.panelFindings(g as never), ['joint-aspect'], (f) => [
        ...found(f.ratio, f.preferred),
        ...value('area', f.area),
      ]),
  ),
  calculation(
    'layout',
    'joints of a rectangle',
    { length: panel('one side'), width: panel('the other'), spacing },
    'length=40ft width=20ft spacing=10ft',
    (g) =>
      answer(
        layOutRectangle({ length: g.length, width: g.width, mostSpacing: g.spacing }),
        ['joint-aspect'],
        layoutRows,
      ),
  ),
  calculation(
    'layout-corners',
    'joints of a slab with square corners, one from each re-entrant corner',
    {
      corners: list(
        tuple(
          { x: measured('length', 'across from one point'), y: measured('length', 'along from it') },
          'each corner in turn',
        ),
      ),
      spacing,
    },
    'corners=0ft@0ft,30ft@0ft,30ft@12ft,12ft@12ft,12ft@24ft,0ft@24ft spacing=12ft',
    (g) =>
      answer(
        layOutPanels({ corners: g.corners, mostSpacing: g.spacing }),
        ['joint-aspect', '302.1r-96'],
        layoutRows,
      ),
  ),
  calculation(
    'saw',
    'the band of hours in which joints are sawn',
    {
      tool: choice(['conventional', 'early-entry'], 'which saw', 'conventional'),
      weather: choice(['usual', 'hot', 'cold'], 'for early entry', 'usual'),
      rule: choice(CHOICES.saw.of, 'whose', CHOICES.saw.usual),
      finished: maybe(words('when finishing ended', '2026-04-21T12:20')),
      zone: maybe(words('IANA zone', 'America/Chicago')),
    },
    'tool=early-entry weather=hot',
    (g) => {
      const window = sawWindow({
        tool: g.tool ?? 'conventional',
        weather: g.weather ?? 'usual',
        rule: g.rule ?? 'faq-915',
      })
      if (!window.ok) return window
      const finished = g.finished === undefined ? undefined : readWallTime('/finished', g.finished, g.zone)
      if (finished && !finished.ok) return finished
      if (finished && g.zone === undefined) return { ok: false, problem: { code: 'missing', at: '/zone' } }
      const clock = finished ? sawTimes(window.value, finished.value, g.zone ?? '') : undefined
      if (clock && !clock.ok) return clock
      return answer(
        window,
        [window.value.source],
        (w) => [
          ...value('from', w.from),
          ...value('to', w.to),
          ...value('by the clock, from', clock?.value.from),
          ...value('by the clock, to', clock?.value.to),
        ],
        ['A band, not a time: a trial cut that hardly ravels decides.'],
      )
    },
  ),
  calculation(
    'finishing',
    'about when a plain mix sets, as a band',
    { temperature: measured('temperature', 'of the concrete', RANGES.settingTemperature) },
    'temperature=65F',
    (g) =>
      answer(
        finishingBand(g as never),
        (b) => [b.source, 'our-choice'],
        (b) => [...value('from', b.from), ...value('about', b.about), ...value('to', b.to)],
        ['Never finish while bleed water stands. The boot print and the sheen decide, not the clock.'],
      ),
  ),
  calculation(
    'maturity',
    'temperature–time factor, Nurse–Saul',
    {
      intervals,
      datum: usually(
        measured('temperature', 'datum: 0, −10 or −11 °C are in use', RANGES.curingTemperature),
        '0C',
      ),
    },
    'intervals=12h@20C,12h@25C datum=0C',
    (g) =>
      answer(
        maturity.nurseSaul({ intervals: g.intervals, ...(g.datum ? { datum: g.datum } : {}) }),
        ['c1074'],
        (n) => [...value('maturity', n.maturity), ...value('datum', n.datum)],
        ['A strength needs that mix’s own curve.'],
      ),
  ),
  calculation(
    'equivalent-age',
    'hours at the reference temperature that count the same',
    { intervals, constants },
    'intervals=12h@15C,12h@20C,24h@25C',
    (g) =>
      answer(
        maturity.equivalentAge({
          intervals: g.intervals,
          constants: maturity.ARRHENIUS[g.constants ?? 'c1074'],
        }),
        ['c1074', 'ti-b-103'],
        (e) => [
          ...value('equivalent age', e.age),
          ...value('activation, K', e.constants.activation),
          ...value('reference, K', e.constants.reference),
        ],
      ),
  ),
  calculation(
    'age-factor',
    'how much faster than at the reference it ages',
    { temperature: measured('temperature', 'of the concrete', RANGES.curingTemperature), constants },
    'temperature=5C constants=ti-b-103',
    (g) =>
      answer(
        maturity.ageFactor({
          temperature: g.temperature,
          constants: maturity.ARRHENIUS[g.constants ?? 'c1074'],
        }),
        ['ti-b-103'],
        (f) => value('factor', f, 4),
      ),
  ),
  calculation(
    'plowman',
    'strength by Plowman’s line, for the mix that its constants are of',
    {
      maturity: measured('temperature-time', 'above −11 °C', RANGES.maturity),
      a: usually(measured('number', 'A'), '32'),
      b: usually(measured('number', 'B'), '54'),
    },
    'maturity=10000degC.h',
    (g) => {
      const plain = (r: { n: bigint; d: bigint } | undefined) => Number(r?.n ?? 0n) / Number(r?.d ?? 1n)
      const it = g.maturity && { n: g.maturity.n, d: g.maturity.d, unit: g.maturity.unit }
      const hours = it?.unit === 'degF.h' ? undefined : (it as Parameters<typeof maturity.plowmanStrength>[0])
      return answer(
        maturity.plowmanStrength(hours, { a: plain(g.a), b: plain(g.b) }),
        ['c1074'],
        (s) => value('of 28-day strength, by that line', s),
        ['A and B are a mix’s own; 32 and 54 are from memory.'],
      )
    },
  ),
  calculation(
    'crack',
    'a width beside the guide for designers of reinforced concrete',
    {
      width: measured('length', 'as measured', RANGES.crack),
      meets: choice(['dry-air', 'humid', 'deicers', 'seawater', 'water-retaining'], 'what the member meets'),
    },
    'width=1/64in meets=deicers',
    (g) =>
      answer(
        crackFinding({ width: g.width, exposure: g.meets ?? 'dry-air' }),
        ['aci-224r'],
        (f) => found(f),
        ['A design guide: some cracks will be wider. It is no acceptance limit, and not for plain slabs.'],
      ),
  ),
  calculation(
    'dust',
    'eight-hour average of silica in the air',
    {
      stretches: list(
        tuple(
          {
            duration: measured('time', 'a stretch', RANGES.dayHours),
            silica: measured('dust', 'in its air', RANGES.dust),
          },
          'stretches of work',
        ),
      ),
    },
    'stretches=4h@80ug/m3,4h@10ug/m3',
    (g) =>
      answer(silicaAverage(g.stretches), ['osha'], (d) => [
        ...value('average', d.average),
        ...value('at or above the action level, 25', d.atAction),
        ...value('above the permissible level, 50', d.abovePermissible),
      ]),
  ),
])
