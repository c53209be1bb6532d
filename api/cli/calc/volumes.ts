import { bagsFor, batchMasses, solidFraction } from '../../domain/trade/batch.ts'
import * as order from '../../domain/trade/order.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import * as volume from '../../domain/trade/volume.ts'
import { answer, calculation, group, value } from './calculation.ts'
import { choice, list, maybe, measured, tuple, usually } from './field.ts'

const side = (says: string) => measured('length', says, RANGES.side)
const thick = (says = 'how thick it is') => measured('length', says, RANGES.thickness)
const concrete = (says: string) => measured('volume', says, RANGES.someVolume)
const yards =
  (name = 'volume') =>
  (v: Parameters<typeof value>[1]) =>
    value(name, v)
const step = usually(measured('volume', 'the supplier’s step', RANGES.orderStep), '0.5yd')

export const VOLUMES = group('Volume and order', [
  calculation(
    'slab',
    'a slab, walk, footing or wall of one thickness',
    { length: side('one side'), width: side('the other side'), thickness: thick() },
    'length=40ft width=20ft thickness=5in',
    (g) => answer(volume.slab(g as never), ['arithmetic'], yards()),
  ),
  calculation(
    'slab-area',
    'a slab of a known area',
    { area: measured('area', 'its area', RANGES.area), thickness: thick() },
    'area=420sqft thickness=4in',
    (g) => answer(volume.slabOfArea(g as never), ['arithmetic'], yards()),
  ),
  calculation(
    'taper',
    'a strip that flares in width, tapers in thickness, or both',
    {
      length: side('its length'),
      width: side('width at one end'),
      'end-width': side('width at the other end'),
      thickness: measured('length', 'thickness at one end', RANGES.thicknessOrNone),
      'end-thickness': measured('length', 'thickness at the other end', RANGES.thicknessOrNone),
    },
    'length=30ft width=4ft end-width=8ft thickness=4in end-thickness=4in',
    (g) =>
      answer(
        volume.taperedSlab({
          length: g.length,
          width: g.width,
          endWidth: g['end-width'],
          thickness: g.thickness,
          endThickness: g['end-thickness'],
        }),
        ['arithmetic'],
        yards(),
      ),
  ),
  calculation(
    'wedge',
    'full thickness at one end, nothing at the other',
    { length: side('its length'), width: side('its width'), thickness: thick('at its thick end') },
    'length=12ft width=10ft thickness=6in',
    (g) => answer(volume.wedge(g as never), ['arithmetic'], yards()),
  ),
  calculation(
    'circle',
    'a round slab, a pier, a column',
    {
      diameter: measured('length', 'across', RANGES.diameter),
      height: measured('length', 'how thick or high', RANGES.height),
    },
    'diameter=15ft height=4in',
    (g) => answer(volume.cylinder(g as never), ['arithmetic'], yards()),
  ),
  calculation(
    'ring',
    'a ring, as around a pool',
    {
      outer: measured('length', 'outer diameter', RANGES.diameter),
      inner: measured('length', 'inner diameter', RANGES.diameter),
      thickness: thick(),
    },
    'outer=20ft inner=12ft thickness=4in',
    (g) =>
      answer(
        volume.ring({ outerDiameter: g.outer, innerDiameter: g.inner, thickness: g.thickness }),
        ['arithmetic'],
        yards(),
      ),
  ),
  calculation(
    'edge',
    'what a thickened edge takes below the slab',
    {
      length: side('how long it runs'),
      depth: thick('its depth below the slab'),
      width: side('its width where it leaves the slab'),
      foot: side('its width at the foot'),
    },
    'length=60ft depth=8in width=16in foot=8in',
    (g) =>
      answer(
        volume.thickenedEdge({
          length: g.length,
          depthBelowSlab: g.depth,
          widthAtSlab: g.width,
          widthAtFoot: g.foot,
        }),
        ['arithmetic'],
        yards(),
      ),
  ),
  calculation(
    'steps',
    'solid steps on the ground',
    {
      count: measured('number', 'how many, 1 to 60'),
      rise: measured('length', 'of each', RANGES.rise),
      tread: measured('length', 'of each', RANGES.tread),
      width: side('of the flight'),
      top: maybe(side('the top tread where it is longer, a landing')),
    },
    'count=3 rise=7in tread=11in width=4ft top=4ft',
    (g) =>
      answer(
        volume.steps({ count: g.count, rise: g.rise, tread: g.tread, width: g.width, topTread: g.top }),
        ['arithmetic'],
        yards(),
      ),
  ),
  calculation(
    'base',
    'a slab over an uneven base, by taped depths',
    {
      area: measured('area', 'its area', RANGES.area),
      depths: list(measured('length', 'depths, spread evenly', RANGES.thicknessOrNone)),
    },
    'area=800sqft depths=5in,5-1/2in,4-3/4in,5in',
    (g) =>
      answer(volume.unevenBase(g as never), ['arithmetic', 'cip-8'], (b) => [
        ...value('volume', b.volume),
        ...value('mean depth', b.meanDepth),
        ...value('least depth', b.leastDepth),
        ...value('most depth', b.mostDepth),
      ]),
  ),
  calculation('coverage', 'what a cubic yard covers', { thickness: thick() }, 'thickness=4in', (g) =>
    answer(volume.coverage(g as never), ['arithmetic'], (v) => value('covers', v)),
  ),
  calculation(
    'order',
    'what to order for a formed volume',
    { net: concrete('what is formed'), waste: measured('share', 'allowance', RANGES.waste), step },
    'net=17.43yd waste=5% step=0.5yd',
    (g) =>
      answer(
        order.orderVolume(g as never),
        ['cip-8', 'beall'],
        (o) => [...value('with the allowance', o.withAllowance), ...value('order', o.order)],
        [`The allowance is for: ${order.ALLOWANCE_IS_FOR.join('; ')}.`],
      ),
  ),
  calculation(
    'allowance',
    'how much more than the formed volume, by whose rule',
    {
      rule: choice(['cip-8', 'estimator', 'beall', 'army'], 'whose rule', 'cip-8'),
      net: maybe(concrete('what is formed; the army’s rule asks for it')),
    },
    'rule=army net=63.7yd',
    (g) =>
      answer(
        order.allowanceBy(g.rule ?? 'cip-8', g.net),
        (w) => [w.source],
        (w) => [...value('at least', w.least), ...value('at most', w.most)],
      ),
  ),
  calculation(
    'trucks',
    'how many trucks, and how far apart',
    {
      order: concrete('the whole order'),
      load: measured('volume', 'what a truck brings', RANGES.load),
      rate: measured('placing-rate', 'what the crew places', RANGES.placingRate),
    },
    'order=18.5yd load=8yd rate=16yd/h',
    (g) =>
      answer(order.trucks(g as never), ['practice'], (t) => [
        ...value('trucks', t.count),
        ...value('apart', t.spacing),
        ...value('placing in all', t.placing),
        ...t.loads.flatMap((load, i) => value(`load ${i + 1}`, load)),
      ]),
  ),
  calculation(
    'balance',
    'what is still to be ordered, by what is measured to be left',
    {
      left: list(
        tuple(
          {
            area: measured('area', 'of a part', RANGES.area),
            depth: measured('length', 'still to fill', RANGES.thicknessOrNone),
            error: measured('length', 'how far that may be off', RANGES.depthError),
          },
          'each part that is not full',
        ),
      ),
      coming: usually(measured('volume', 'in the drum and on the road', RANGES.volume), '0yd'),
      step,
    },
    'left=224sqft@4in@1/4in coming=0.5yd',
    (g) =>
      answer(
        order.balanceToOrder({ left: g.left, onTheWay: g.coming, step: g.step }),
        ['arithmetic'],
        (b) => [
          ...value('needed', b.needed),
          ...value('at least', b.least),
          ...value('at most', b.most),
          ...value('order', b.order),
        ],
      ),
  ),
  calculation(
    'shortage',
    'what a slab that is too thick takes of an order',
    {
      thickness: thick('as planned'),
      error: measured('length', 'too thick by', RANGES.depthError),
      order: concrete('the order'),
    },
    'thickness=4in error=1/8in order=32yd',
    (g) =>
      answer(order.shortageBy(g as never), ['cip-8'], (s) => [
        ...value('of the order', s.share),
        ...value('short', s.volume),
      ]),
  ),
  calculation(
    'hardened',
    'about what fresh concrete comes to when hard',
    { fresh: concrete('fresh') },
    'fresh=100yd',
    (g) => answer(order.hardenedVolume(g as never), ['cip-8'], yards('about')),
  ),
  calculation(
    'batch',
    'materials for a volume by a mix per cubic yard',
    {
      volume: concrete('to be made'),
      sacks: measured('number', 'sacks of cement a yard', RANGES.sacks),
      coarse: measured('density', 'coarse aggregate', RANGES.aggregateContent),
      fine: measured('density', 'fine aggregate', RANGES.aggregateContent),
      water: measured('volume', 'a sack', RANGES.waterVolume),
    },
    'volume=70.1yd sacks=7.05 coarse=1768lb/yd fine=1083lb/yd water=8gal',
    (g) =>
      answer(
        batchMasses({
          volume: g.volume,
          sacksPerYard: g.sacks,
          coarse: g.coarse,
          fine: g.fine,
          gallonsPerSack: g.water,
        }),
        ['en5466'],
        (b) => [
          ...value('sacks', b.wholeSacks),
          ...value('cement', b.cement),
          ...value('coarse', b.coarse),
          ...value('fine', b.fine),
          ...value('water', b.water),
        ],
      ),
  ),
  calculation(
    'bags',
    'bags of dry mix for a volume',
    {
      bag: usually(measured('mass', 'what a bag weighs', RANGES.bag), '80lb'),
      volume: concrete('to be made'),
    },
    'bag=80lb volume=0.5yd',
    (g) =>
      answer(bagsFor(g as never), ['bags'], (b) => [
        ...value('bags', b.bags),
        ...value('a bag makes', b.perBag),
        ...value('bags a yard', b.perYard),
      ]),
  ),
  calculation(
    'solids',
    'solid part of a dry-rodded aggregate',
    {
      rodded: measured('density', 'dry-rodded', RANGES.dryRodded),
      gravity: measured('number', 'specific gravity', RANGES.specificGravity),
      water: usually(measured('density', 'of water', RANGES.waterDensity), '62.4pcf'),
    },
    'rodded=88.6pcf gravity=2.79',
    (g) =>
      answer(
        solidFraction({ dryRodded: g.rodded, specificGravity: g.gravity, water: g.water }),
        ['moisture-course'],
        (s) => value('solid part', s),
      ),
  ),
])
