import type { Fact } from '../../../../api/domain/phrase/facts.ts'
import type { Chance } from '../../../kit/chance.ts'
import { clock, digits, pairs, quarters, type Tongue, tenths, whole } from './say-number.ts'

/** One fact and a clause that says it. */
export type Clause = { readonly said: string; readonly facts: readonly Fact[]; readonly about: string }
type Maker = (tongue: Tongue, chance: Chance) => Clause

const quarterStep = (chance: Chance, from: number, to: number): number =>
  from + chance.below((to - from) * 4 + 1) / 4
const tenthStep = (chance: Chance, from: number, to: number): number =>
  Math.round(from * 10 + chance.below((to - from) * 10 + 1)) / 10
const say = (chance: Chance, forms: readonly string[], put: Readonly<Record<string, string>>): string =>
  chance.pick(forms).replaceAll(/\{(\w+)\}/g, (_, name: string) => put[name] ?? '')

const TICKET: Maker = (tongue, chance) => {
  const value = String(10_000 + chance.below(90_000))
  const n = digits(value, tongue, chance)
  const forms =
    tongue === 'en'
      ? ['ticket {n}', 'ticket number {n}', "ticket's {n}", 'the ticket is {n}', "that's ticket {n}"]
      : ['boleta {n}', 'la boleta es {n}', 'ticket {n}', 'la remisión es {n}', 'boleta número {n}']
  return { about: 'ticket', said: say(chance, forms, { n }), facts: [{ kind: 'load.ticket', value }] }
}

const TRUCK: Maker = (tongue, chance) => {
  const value = String(chance.chance(0.4) ? 11 + chance.below(89) : 101 + chance.below(899))
  const n = pairs(value, tongue, chance)
  const forms =
    tongue === 'en'
      ? ['truck {n}', 'truck number {n}', "it's truck {n}", 'mixer {n}']
      : ['camión {n}', 'es el camión {n}', 'truck {n}', 'trompo {n}', 'olla número {n}']
  return { about: 'truck', said: say(chance, forms, { n }), facts: [{ kind: 'load.truck', value }] }
}

const YARDS: Maker = (tongue, chance) => {
  const value = quarterStep(chance, 2, 11)
  const n = quarters(value, tongue, chance)
  const half = tongue === 'es' && value % 1 === 0.5
  const forms =
    tongue === 'en'
      ? ['{n} yards', "he's got {n} yards", '{n} yards on this one', 'carrying {n} yards']
      : half
        ? ['{w} yardas y media', 'trae {w} yardas y media', 'son {w} yardas y media']
        : ['{n} yardas', 'trae {n} yardas', 'son {n} yardas']
  return {
    about: 'yards',
    said: say(chance, forms, { n, w: whole(Math.floor(value), tongue) }),
    facts: [{ kind: 'load.volume', value, unit: 'yd3' }],
  }
}

const TIMES: readonly { about: string; kind: Fact['kind']; en: readonly string[]; es: readonly string[] }[] =
  [
    {
      about: 'batched',
      kind: 'load.batched_at',
      en: ['batched {t}', 'loaded {t}', 'it was batched {t}', 'they batched it {t}'],
      es: ['lo cargaron {t}', 'lo batcharon {t}', 'cargado {t}'],
    },
    {
      about: 'arrived',
      kind: 'load.arrived_at',
      en: [
        'got here {t}',
        'arrived {t}',
        'pulled in {t}',
        'on site {t}',
        'showed up {t}',
        'he backed in {t}',
      ],
      es: ['llegó {t}', 'el camión llegó {t}', 'llegó el trompo {t}'],
    },
    {
      about: 'started',
      kind: 'load.discharge_started_at',
      en: ['started pouring {t}', 'started unloading {t}', 'we began placing {t}', 'pouring {t}'],
      es: ['empezamos a vaciar {t}', 'empezamos a colar {t}', 'empezó a descargar {t}'],
    },
    {
      about: 'ended',
      kind: 'load.discharge_ended_at',
      en: ['empty {t}', 'finished pouring {t}', "chute's empty {t}", 'done unloading {t}'],
      es: ['terminamos de vaciar {t}', 'terminó de descargar {t}', 'quedó vacío {t}'],
    },
    {
      about: 'left',
      kind: 'load.left_at',
      en: ['he pulled out {t}', 'left the job {t}', 'truck left {t}', 'he took off {t}'],
      es: ['se fue {t}', 'el trompo se fue {t}', 'salió de la obra {t}'],
    },
  ]

const TIME: Maker = (tongue, chance) => {
  const of = chance.pick(TIMES)
  const hour = chance.pick([6, 7, 8, 9, 10, 11, 12, 1, 2, 3, 4])
  const minute = chance.chance(0.3) ? chance.pick([0, 15, 30, 45, 10, 20, 50, 40, 5]) : 1 + chance.below(59)
  const at = `${String(hour < 6 ? hour + 12 : hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`
  return {
    about: of.about,
    said: say(chance, of[tongue], { t: clock(hour, minute, tongue, chance) }),
    facts: [{ kind: of.kind, at }],
  }
}

const SLUMP: Maker = (tongue, chance) => {
  const value = quarterStep(chance, 2, 8)
  const n = quarters(value, tongue, chance)
  const forms =
    tongue === 'en'
      ? [
          'slump {n}',
          "slump's {n}",
          '{n} slump',
          'slump came in at {n}',
          'got a {n} inch slump',
          'slump was {n} inches',
          'cone says {n}',
        ]
      : [
          'revenimiento {n}',
          'el slump está en {n}',
          'revenimiento de {n}',
          '{n} de revenimiento',
          'el cono marcó {n}',
        ]
  return {
    about: 'slump',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.slump', value, unit: 'in' }],
  }
}

const AIR: Maker = (tongue, chance) => {
  const value = tenthStep(chance, 3, 8)
  const n = tenths(value, tongue, chance)
  const forms =
    tongue === 'en'
      ? ['air {n}', "air's {n}", '{n} air', '{n} on the air', 'air was {n} percent', 'meter says {n}']
      : ['aire {n}', '{n} de aire', 'el aire salió en {n}', 'aire {n} por ciento']
  return { about: 'air', said: say(chance, forms, { n }), facts: [{ kind: 'reading.air', value, unit: '%' }] }
}

const CONCRETE: Maker = (tongue, chance) => {
  const value = 50 + chance.below(45)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? [
          'concrete {n}',
          '{n} on the concrete',
          "mud's {n}",
          'concrete temp {n}',
          'concrete temperature is {n} degrees',
          'mud temp {n}',
        ]
      : ['el concreto está a {n} grados', 'concreto {n}', 'temperatura del concreto {n}', 'la mezcla a {n}']
  return {
    about: 'concrete',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.concrete_temperature', value, unit: 'degF' }],
  }
}

const OUTSIDE: Maker = (tongue, chance) => {
  const value = 46 + chance.below(50)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? ["it's {n} outside", 'air temp {n}', 'outside temp is {n}', "ambient's {n} degrees"]
      : ['afuera está a {n}', 'la temperatura de afuera {n}', 'temperatura ambiente {n}']
  return {
    about: 'outside',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.air_temperature', value, unit: 'degF' }],
  }
}

const WIND: Maker = (tongue, chance) => {
  const value = 3 + chance.below(27)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? ["wind's {n}", 'wind {n}', 'wind is {n} miles an hour']
      : ['viento {n}', 'el viento anda en {n} millas', 'viento de {n}']
  return {
    about: 'wind',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.wind', value, unit: 'mph' }],
  }
}

const HUMIDITY: Maker = (tongue, chance) => {
  const value = 15 + chance.below(80)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? ['humidity {n}', "humidity's {n} percent", 'relative humidity is {n}']
      : ['humedad {n}', 'humedad {n} por ciento']
  return {
    about: 'humidity',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.humidity', value, unit: '%RH' }],
  }
}

const WATER: Maker = (tongue, chance) => {
  const value = 2 + chance.below(19)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? [
          'added {n} gallons',
          'we put in {n} gallons',
          '{n} gallons went in',
          'added {n} gallons of water',
          'they added {n} gallons',
          'gave it {n} gallons',
        ]
      : [
          'le echamos {n} galones',
          'le pusieron {n} galones de agua',
          'se le agregaron {n} galones',
          'le metimos {n} galones',
        ]
  return {
    about: 'water',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'load.water_added', value, unit: 'gal' }],
  }
}

const NONE: Maker = (tongue, chance) => {
  const forms =
    tongue === 'en'
      ? ['no water', 'no water added', "we didn't add any water", 'zero water']
      : ['sin agua', 'no le echamos agua', 'nada de agua']
  return {
    about: 'water',
    said: say(chance, forms, {}),
    facts: [{ kind: 'load.water_added', value: 0, unit: 'gal' }],
  }
}

const CYLINDERS: Maker = (tongue, chance) => {
  const value = 2 + chance.below(6)
  const n = whole(value, tongue)
  const forms =
    tongue === 'en'
      ? ['made {n} cylinders', '{n} cylinders', 'cast {n} cylinders']
      : ['hicimos {n} cilindros', 'sacamos {n} cilindros', '{n} cilindros']
  return {
    about: 'cylinders',
    said: say(chance, forms, { n }),
    facts: [{ kind: 'reading.cylinders', value, unit: 'count' }],
  }
}

const NOT_TAKEN: Maker = (tongue, chance) => {
  const forms =
    tongue === 'en'
      ? ['no slump on this one', "didn't run a slump", 'no slump test']
      : ['no se tomó revenimiento', 'no hicimos revenimiento']
  return { about: 'slump', said: say(chance, forms, {}), facts: [{ kind: 'reading.slump', not_taken: true }] }
}

const STEP: Maker = (tongue, chance) => {
  const of = chance.pick([
    {
      name: 'broom' as const,
      en: ['we just broomed it', 'just broomed the walk'],
      es: ['ya escobeamos', 'ya le pasamos la escoba'],
    },
    { name: 'edging' as const, en: ['just edged it', 'just finished edging'], es: ['ya orillamos'] },
    {
      name: 'float' as const,
      en: ['just bull floated it', 'just floated it'],
      es: ['ya le pasamos la llana'],
    },
    {
      name: 'cure_applied' as const,
      en: ['just sprayed the cure', "cure's on"],
      es: ['ya le pusimos el curador', 'ya está el curador'],
    },
    {
      name: 'bleed_water_gone' as const,
      en: ["bleed water's gone", "the sheen's gone"],
      es: ['ya se secó el agua de arriba'],
    },
  ])
  return {
    about: of.name,
    said: say(chance, of[tongue], {}),
    facts: [{ kind: 'event', name: of.name, min_ago: 0 }],
  }
}

export const MAKERS: readonly Maker[] = [
  TICKET,
  TRUCK,
  YARDS,
  TIME,
  TIME,
  TIME,
  SLUMP,
  AIR,
  CONCRETE,
  OUTSIDE,
  WIND,
  HUMIDITY,
  WATER,
  NONE,
  CYLINDERS,
  NOT_TAKEN,
  STEP,
]
