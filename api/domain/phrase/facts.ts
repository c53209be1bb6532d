/**
 * What a sentence proposes. Nothing here is an entry yet: a person keeps or drops each fact.
 * The shape is that of our own list of sentences, tests/cases/utterances.tsv.
 */
export type FactKind =
  | 'load.ticket'
  | 'load.truck'
  | 'load.volume'
  | 'load.batched_at'
  | 'load.arrived_at'
  | 'load.discharge_started_at'
  | 'load.discharge_ended_at'
  | 'load.left_at'
  | 'load.water_added'
  | 'load.rejected'
  | 'reading.slump'
  | 'reading.slump_flow'
  | 'reading.air'
  | 'reading.concrete_temperature'
  | 'reading.air_temperature'
  | 'reading.wind'
  | 'reading.humidity'
  | 'reading.cylinders'
  | 'reading.density'
  | 'event'
  | 'note'

export type FactUnit =
  | 'in'
  | 'mm'
  | '%'
  | 'degF'
  | 'degC'
  | 'gal'
  | 'L'
  | 'yd3'
  | 'm3'
  | 'mph'
  | 'km/h'
  | '%RH'
  | 'count'
  | 'lb/ft3'
  | 'kg/m3'

export type EventName =
  | 'bleed_water_gone'
  | 'strike_off'
  | 'float'
  | 'edging'
  | 'jointing'
  | 'broom'
  | 'cure_applied'
  | 'saw_cut'
  | 'rain'

export type Phase = 'start' | 'end' | 'under_way'
export type Stage =
  | 'before_water'
  | 'after_water'
  | 'before_discharge'
  | 'after_discharge_began'
  | 'in_transit'

/** Why something is kept as words and not as a figure. */
export type NoteAbout =
  | 'asked-for'
  | 'left-plant'
  | 'on-the-way'
  | 'dispatch'
  | 'ordered'
  | 'planned'
  | 'not-yet'
  | 'almost'
  | 'total'
  | 'left-over'
  | 'mix'
  | 'limit'
  | 'bleeding'
  | 'covered'
  | 'forms'
  | 'base'
  | 'late'
  | 'wind-by-feel'
  | 'looks'
  | 'remark'

export type Fact = {
  readonly kind: FactKind
  /** Digits as said for a ticket or a truck, a number for a reading. */
  readonly value?: number | string
  readonly min?: number
  readonly max?: number
  readonly unit?: FactUnit
  /** No unit word was spoken. */
  readonly unit_assumed?: true
  /** `HH:MM`; `*:50` where the hour was not said. */
  readonly at?: string
  /** Minutes before the moment of speech. */
  readonly min_ago?: number
  readonly time?: 'not_stated'
  readonly day?: 'yesterday'
  readonly load?: number
  readonly name?: EventName
  readonly phase?: Phase
  readonly area?: string
  readonly stage?: Stage
  readonly yd3_out?: number
  readonly yd3_left?: number
  readonly approx_yd3?: true
  readonly approx?: true
  readonly method?: 'measured' | 'estimated'
  readonly reported_by?: 'driver'
  readonly not_taken?: true
  /** Asked again before it is kept. */
  readonly low_confidence?: true
  readonly corrects?: true
  readonly was?: number | string
  readonly check_test?: true
  readonly correction?: number
  readonly corrected?: number
  readonly gust?: number
  readonly derived?: true
  readonly running_total?: number
  readonly partial?: 'ends_with'
  readonly set?: string
  readonly size?: '4x8 in' | '6x12 in'
  readonly reason?: string
  readonly about?: NoteAbout
  readonly text?: string
}

/** One short question with its readings, each a fact that a button would keep. */
export type Question = { readonly about: FactKind; readonly readings: readonly [Fact, Fact, ...Fact[]] }

export type Hearing = {
  readonly facts: readonly Fact[]
  /** The words with a number or a term of the trade in them that gave nothing, as they were said. */
  readonly unread: readonly string[]
  readonly question?: Question
}
