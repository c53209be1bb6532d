import * as density from '../../domain/trade/density.ts'
import { compareTo } from '../../domain/trade/finding.ts'
import { toUnit } from '../../domain/trade/measure.ts'
import { RANGES } from '../../domain/trade/ranges.ts'
import { samplingFindings, temperatureReading } from '../../domain/trade/sampling.ts'
import { slumpReading } from '../../domain/trade/slump-test.ts'
import * as strength from '../../domain/trade/strength.ts'
import { airFinding, slumpTolerance } from '../../domain/trade/tolerance.ts'
import { answer, calculation, found, group, value } from './calculation.ts'
import { choice, list, maybe, measured, usually } from './field.ts'

const minutes = (says: string) => maybe(measured('time', says, RANGES.minutes))
const psi = (says: string) => measured('pressure', says, RANGES.strength)
const breaks = (says: string) => list(measured('pressure', says, RANGES.breakStrength))
const pcf = (says: string) => measured('density', says, RANGES.concreteDensity)

export const TESTS = group('Tests and tolerances', [
  calculation(
    'slump',
    'a slump as it is reported, and whether the method applies',
    {
      measured: measured('length', 'as measured', RANGES.slump),
      since: minutes('from the last portion of the sample'),
      duration: minutes('the whole test'),
    },
    'measured=4-3/8in since=3min duration=2min',
    (g) =>
      answer(
        slumpReading({ measured: g.measured, sinceSampling: g.since, duration: g.duration }),
        ['c143', 'c172'],
        (r) => [...value('reported', r.reported), ...found(r.range, r.start, r.duration)],
      ),
  ),
  calculation(
    'slump-tolerance',
    'the ends of an ordered slump; with a reading, where it lies',
    {
      specified: measured('length', 'as ordered', RANGES.slump),
      form: choice(['target', 'maximum'], 'how it was ordered', 'target'),
      measured: maybe(measured('length', 'a reading', RANGES.slump)),
    },
    'specified=4in form=target measured=4-1/4in',
    (g) =>
      answer(
        slumpTolerance({ specified: g.specified, form: g.form ?? 'target' }),
        (t) => [t.source],
        (t) => [
          ...value('at least', t.least),
          ...value('at most', t.most),
          ...found(g.measured && compareTo('slump', toUnit(g.measured, 'in'), t)),
        ],
      ),
  ),
  calculation(
    'air-tolerance',
    'an air reading against the order',
    {
      specified: measured('share', 'as ordered', RANGES.air),
      tolerance: maybe(
        measured('share', 'either way, where the order names it; else 1.5 points', RANGES.airTolerance),
      ),
      measured: maybe(measured('share', 'the reading', RANGES.air)),
    },
    'specified=6.5% measured=5.4%',
    (g) =>
      answer(
        airFinding({ specified: g.specified, tolerance: g.tolerance, measured: g.measured }),
        (f) => [f.limit?.source ?? 'c94-air'],
        (f) => found(f),
      ),
  ),
  calculation(
    'sampling',
    'how a sample was taken, beside the practice',
    {
      portions: minutes('between first and last portion'),
      tests: minutes('from the last portion to the tests'),
      molding: minutes('from the composite to molding'),
      volume: maybe(measured('volume', 'of the sample', RANGES.sample)),
      first: maybe(measured('share', 'of the load gone at the first portion', RANGES.share)),
      last: maybe(measured('share', 'of the load gone at the last', RANGES.share)),
    },
    'tests=4min molding=12min volume=1.2cf first=30% last=55%',
    (g) =>
      answer(
        samplingFindings({
          betweenPortions: g.portions,
          toTests: g.tests,
          toMolding: g.molding,
          volume: g.volume,
          firstAt: g.first,
          lastAt: g.last,
        }),
        ['c172', 'c172-portions'],
        (all) => found(...all),
      ),
  ),
  calculation(
    'temperature',
    'a concrete temperature as it is reported, and how it was taken',
    {
      measured: measured('temperature', 'the reading', RANGES.concreteTemperature),
      cover: maybe(measured('length', 'concrete around the sensor', RANGES.thicknessOrNone)),
      'in-place': minutes('how long it stood'),
      since: minutes('from sampling to the reading'),
    },
    'measured=65.6F cover=3in in-place=2min',
    (g) =>
      answer(
        temperatureReading({
          measured: g.measured,
          cover: g.cover,
          inPlace: g['in-place'],
          sinceSampling: g.since,
        }),
        ['c1064', 'c1064-device'],
        (r) => [...value('reported', r.reported), ...found(r.cover, r.inPlace, r.readAfter)],
      ),
  ),
  calculation(
    'density',
    'density from a filled measure',
    {
      full: measured('mass', 'measure and concrete', RANGES.scaleMass),
      empty: measured('mass', 'the empty measure', RANGES.scaleMass),
      measure: measured('volume', 'of the measure', RANGES.measureVolume),
    },
    'full=44.3lb empty=8.2lb measure=0.2494ft3',
    (g) => answer(density.density(g as never), ['c138'], (d) => value('density', d, 1)),
  ),
  calculation(
    'yield',
    'volume of a batch by its density, and relative to its design',
    {
      batch: measured('mass', 'all materials', RANGES.someBatch),
      density: pcf('as measured'),
      design: maybe(measured('volume', 'as designed', RANGES.someVolume)),
    },
    'batch=31640lb density=145.2pcf design=8yd',
    (g) =>
      answer(density.batchYield({ batch: g.batch, density: g.density, design: g.design }), ['c138'], (y) => [
        ...value('yield', y.yield, 2),
        ...value('relative yield', y.relative, 2),
      ]),
  ),
  calculation(
    'batch-mass',
    'mass of a batch from its parts',
    { parts: list(measured('mass', 'each material', RANGES.batchMass)) },
    'parts=4640lb,13600lb,11400lb,1948lb',
    (g) => answer(density.batchMass(g as never), ['c138'], (m) => value('batch', m)),
  ),
  calculation(
    'relative-yield',
    'what came against what was asked for',
    {
      actual: measured('volume', 'came', RANGES.someVolume),
      design: measured('volume', 'asked for', RANGES.someVolume),
    },
    'actual=210ft3 design=8yd',
    (g) => answer(density.relativeYield(g as never), ['c138'], (r) => value('relative yield', r)),
  ),
  calculation(
    'volume-by-density',
    'a load’s volume by density tests from several trucks',
    { batch: measured('mass', 'all materials', RANGES.someBatch), densities: list(pcf('one test each')) },
    'batch=31640lb densities=145.0pcf,145.2pcf,145.4pcf',
    (g) =>
      answer(
        density.volumeByDensity(g as never),
        ['cip-8'],
        (v) => [...value('volume', v.volume, 2), ...value('mean density', v.mean, 1)],
        (v) => (v.enough ? [] : ['Three tests from three trucks are the basis that both sides go by.']),
      ),
  ),
  calculation(
    'cement',
    'cement in a cubic yard',
    {
      cement: measured('mass', 'in the batch', RANGES.someMass),
      yield: measured('volume', 'of the batch', RANGES.someVolume),
    },
    'cement=4512lb yield=8.07yd',
    (g) => answer(density.cementContent(g as never), ['c138'], (c) => value('cement', c, 0)),
  ),
  calculation(
    'air-by-weight',
    'gravimetric air',
    { 'air-free': pcf('theoretical, without air'), density: pcf('as measured') },
    'air-free=155.1pcf density=146.3pcf',
    (g) =>
      answer(density.gravimetricAir({ airFree: g['air-free'], density: g.density }), ['c138'], (a) =>
        value('air', a, 1),
      ),
  ),
  calculation(
    'air-by-meter',
    'air by the pressure meter, less the aggregate’s',
    {
      apparent: measured('share', 'on the meter', RANGES.air),
      correction: measured('share', 'aggregate correction', RANGES.air),
    },
    'apparent=6.9% correction=0.5%',
    (g) => answer(density.pressureAir(g as never), ['c231'], (a) => value('air', a, 1)),
  ),
  calculation(
    'yield-of-air',
    'what a change of air does to a cubic yard',
    { change: measured('share', 'of air, with its sign', RANGES.airChange) },
    'change=1%',
    (g) => answer(density.yieldOfAir(g as never), ['c138'], (v) => value('a cubic yard changes by', v)),
  ),
  calculation(
    'strength-test',
    'the mean of cylinders, and whether acceptance may rest on it',
    {
      cylinders: breaks('each break'),
      size: choice(['6x12', '4x8'], 'inches', '6x12'),
      age: measured('time', 'at the break', RANGES.days),
    },
    'cylinders=5010psi,5090psi size=6x12 age=28d',
    (g) =>
      answer(
        strength.strengthTest({ cylinders: g.cylinders, size: g.size ?? '6x12', age: g.age }),
        ['aci-318-accept'],
        (t) => [
          ...value('mean', t.mean),
          ...value('for acceptance', t.forAcceptance),
          ...value('cylinders a test', t.cylindersNeeded),
        ],
      ),
  ),
  calculation(
    'strength',
    'both criteria for a series of strength tests',
    { specified: psi('f′c'), tests: breaks('means of tests, in their order') },
    'specified=4000psi tests=3950psi,4100psi,4050psi,3800psi',
    (g) =>
      answer(
        strength.strengthAcceptance(g as never),
        ['aci-318-accept', 'aci-318-high'],
        (a) => [
          ...a.runningMeans.flatMap((mean, i) => value(`mean of three, ${i + 1} to ${i + 3}`, mean)),
          ...value('(a) each mean of three', a.criterionA),
          ...value('(b) each single test', a.criterionB),
          ...value('least single test', a.leastSingle),
          ...value('both', a.overall),
        ],
        [
          'Outside (a) asks for steps that raise strength; neither means that concrete is taken out by itself.',
        ],
      ),
  ),
  calculation(
    'cores',
    'cores against 85 % in the mean and 75 % each',
    { specified: psi('f′c'), cores: breaks('three or more') },
    'specified=4000psi cores=3500psi,3400psi,3600psi',
    (g) => answer(strength.coreFindings(g as never), ['aci-318-cores'], (c) => found(c.mean, ...c.singles)),
  ),
  calculation(
    'tests-a-day',
    'how many strength tests a day’s placing calls for',
    {
      volume: measured('volume', 'placed', RANGES.someVolume),
      area: usually(measured('area', 'of slab', RANGES.areaOrNone), '0sqft'),
    },
    'volume=160yd area=5200sqft',
    (g) => answer(strength.testsForDay(g as never), ['aci-318-rate'], (n) => value('tests', n)),
  ),
  calculation(
    'final-curing',
    'the temperature of cylinders in final curing',
    { temperature: measured('temperature', 'around them', RANGES.airTemperature) },
    'temperature=75F',
    (g) => answer(strength.finalCuring(g.temperature), ['c31'], (f) => found(f)),
  ),
  calculation(
    'cylinders',
    'the first days of cylinders',
    {
      specified: psi('f′c'),
      coldest: maybe(measured('temperature', 'around them', RANGES.airTemperature)),
      warmest: maybe(measured('temperature', 'around them', RANGES.airTemperature)),
      duration: maybe(measured('time', 'of initial curing', RANGES.hours)),
    },
    'specified=4500psi coldest=58F warmest=74F duration=24h',
    (g) =>
      answer(
        strength.initialCuring({
          specified: g.specified,
          coldest: g.coldest,
          warmest: g.warmest,
          duration: g.duration,
        }),
        ['c31'],
        (c) => found(c.coldest, c.warmest, c.duration),
      ),
  ),
])
