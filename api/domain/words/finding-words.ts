import type { FindingOf, INPUTS, Missing, Note } from '../job/findings/finding.ts'
import type { Verdict } from '../trade/finding.ts'
import type { HowRead } from '../trade/sources.ts'
import type { TradeUnit } from '../trade/unit-table.ts'
import type { Unit } from '../units.ts'
import { findingsEn } from './findings-en.ts'
import { findingsEs } from './findings-es.ts'
import type { Language } from './languages.ts'

/** Words for findings, on paper and on screens; the compiler asks for those of a new one. */
export type FindingWords = {
  readonly texts: Readonly<Record<FindingText, string>>
  readonly names: Readonly<Record<FindingOf, string>>
  readonly inputs: Readonly<Record<(typeof INPUTS)[number], string>>
  readonly missing: Readonly<Record<Missing, string>>
  readonly notes: Readonly<Record<Note, string>>
  /** The same where a record holds a part of the entries alone: what it lacks may have been recorded. */
  readonly notesHere: Readonly<Partial<Record<Note, string>>>
  readonly verdicts: Readonly<Record<Extract<Verdict, 'inside' | 'outside'>, string>>
  /** How a source’s figure came to us; empty where that needs no word. */
  readonly how: Readonly<Record<HowRead, string>>
  /** Units of the trade that no entry carries. */
  readonly units: Readonly<Record<Exclude<UnitShown, Unit>, string>>
}
/** The units that findings are shown in. */
export type UnitShown = Extract<TradeUnit, Unit | 'lb/ft2/h'>

export type FindingText =
  | 'head'
  | 'intro'
  | 'none'
  | 'noneHere'
  | 'chosen'
  | 'nobodyChose'
  | 'nobodyChoseHere'
  | 'usual'
  | 'usualHere'
  | 'by'
  | 'formula'
  | 'limit'
  | 'between'
  | 'atMost'
  | 'atLeast'
  | 'under'
  | 'noLimit'
  | 'noLimitHere'
  | 'notRecorded'
  | 'notHere'
  | 'missing'
  | 'missingHere'
  | 'from'
  | 'order'
  | 'ticket'
  | 'where'
  | 'value'
  | 'lies'
  | 'entries'
  | 'wholeJob'

export const FINDING_WORDS: Readonly<Record<Language, FindingWords>> = { en: findingsEn, es: findingsEs }
