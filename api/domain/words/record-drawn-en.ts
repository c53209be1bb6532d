/** What the record's drawings, cover and prints say, in English: a part of the record's dictionary. */
export const recordDrawnEn = {
  recDrawnHead: 'The pour on one sheet',
  recDrawnKey:
    'Clocks of {day}, UTC{offset}. Dashed line: on the road since batching. Open bar: at the forms, not discharging. Dark bar: discharging; crossed: paused. A word stands beside the line at its moment. †: recorded more than 10 minutes after it happened. Sources, people and second answers stand on the sheets that follow.',
  recDrawnNoTrucks: 'No time of any load was logged.',
  recDrawnLimit: 'limit {minutes} min',
  recDrawnWater: 'water: {amount}',
  recDrawnLate: '{text} †',
  recDrawnMark: '†',
  recDrawnTimes:
    'Batched {batched}; arrived {arrived}; discharge started {started}, ended {ended}; left {left}.',
  recDrawnMinutes:
    'From batching: {start} to the start, {end} to the end of discharge. Limit: {limit}. Water on site: {water}.',
  recDrawnGap: '{minutes} min between',
  recDrawnOverlap: '{minutes} min of both at once',
  recDrawnDay: 'The day: weather, finish and cure',
  recDrawnDischarge: 'Discharge, by load',
  recDrawnCrowd: '{n} in all, too close together for their words here; they stand in the lists that follow',
  recPrintFile: 'photos/{hash}…',
  recPrintsAre:
    'Photos that were logged: {n}; {cited} of them stand beside the loads’ figures above, the others here. They are printed smaller than they are; the files as they were received are in photos/, each under its whole SHA-256, of which a caption gives the beginning. An empty frame is a file that this program can’t draw; the file itself is there.',
  recDrawnOutside:
    'Further weather, finish and cure entries lie on other days and are not drawn: {n}. They stand in the lists that follow.',
  recSketchHead: 'Where each load went',
  recSketchKey:
    'The parts as they were planned, all to one scale, each laid along its length from the end that its distances are counted from. Shaded: where a load is said to have gone. Dashed: saw cuts where their spacing was logged, counted from that end; where each cut truly lies was not measured.',
  recSketchShared: '{loads}: where within this part is not recorded',
  recSketchNone: 'no load is said to have gone here',
  recSketchNote: '{part}. Depths: {depths}. Photos: {photos}.',
  recScopeLoad: '{load} (numbered among the loads in this record)',
  recYardsPart:
    'This record does not hold all that was logged of the job’s yards, so that no sum over the job is made here.',
  recRatioNoWaterHere: 'with site water: not worked out, since it is not in this record',
  recReadings: 'Readings',
  recInstrumentsHead: 'Readings: who took them, with what',
  recNoReadings: 'Of no reading was it logged who took it or with what.',
  recCalibration:
    'When an instrument was last calibrated or checked, and how long a tester’s papers are good for, no entry of this release of the log can say: ask whoever took the reading.',
  recLimitsHead: 'Limits that figures were set against',
  recLimitOf: 'Of',
  recLimitValue: 'Limit',
  recLimitBy: 'Stated by',
  recLimitEntry: 'Logged in',
  recLimitTime: 'Time from batching',
  recLimitByOrder: 'the order',
  recLimitByTicket: 'the ticket, {load}',
  recNoLimits: 'No limit was logged; none was assumed.',
  recLimitsOwn:
    'Each is what that order or ticket says, as it was logged, without an edition of a standard: neither states one. Where nothing is stated, none is assumed: ASTM C94/C94M-21 leaves the time limit to purchaser or producer and has it on the ticket (as retold by trade texts; check it against the standard).',
  recLimitsOurs:
    'This program’s own: late is more than 10 minutes from happening to recording; water is taken at 8.34 lb/gal.',
  recTallyEntries: 'entries',
  recTallyLoads: 'loads',
  recTallyLate: 'recorded late †',
  recTallyChanges: 'corrected, taken back',
  recTallyWithheld: 'not in this record',
  recTallyGaps: 'gaps named',
  recScope: 'Covers',
  recScopeWhole: 'the whole job',
  recScopeFrom: 'from {day} on',
  recScopeTo: 'to {day}',
  recWithholdAsked: 'Withheld on request',
  recWithholdPersonal: 'customer and address',
  recMissingEntries: 'Not in this record',
  recMissingEntriesAre:
    '{n} entries: {entries}. Their places and hashes are in thread.txt. “Not in this record” beside a fact means that no entry given here says it; one of these may.',
  recFingerprint: 'The short fingerprint of this record',
  recFingerprintIs:
    'Eight words that stand for the state of the log that this record was made of: its origin, size and root, how many entries this job had, and its last leaf. They stand at the foot of each sheet. Whoever has a record, or a witness slip of the same moment, can compare them aloud. They do not stand for this file: its language and what is withheld are not in them.',
  recReadThis: 'To read this',
  recReadLate:
    '† marks what was recorded more than 10 minutes after it happened, with the minutes. Everything without it was recorded within 10 minutes, by the clock of the device.',
  recReadChanges:
    'A corrected value names the entry of the first one; both stand under “Corrections and withdrawals”.',
  recReadWords:
    '“None” is an answer that somebody logged. “Not taken”, “not stated”, “not sure” and “not recorded” are four other things.',
  recReadLast:
    'What this record does not show, how it was made and how to check it stand on its last sheets.',
  recNotHere: 'not in this record',
  recNoLimitHere: 'limit not stated in this record',
  recNoWaiverHere: 'no waiver in this record',
  recSilentHere: 'Of no load does this record hold anything on: {what}.',
  recGapsHeadHere: 'What was not recorded, or is not in this record',
  recGapNightsHere: 'protection and temperature at night after the night of {night}: not in this record',
  recNothingHere: 'This record holds nothing of it.',
  recLateGroup:
    'Late: {what}, {n} entries ({entries}); occurred {first} to {last}, recorded {least} to {most} min later, {who}.',
  recFooterPart:
    '{words} · {withheld} entries not in this record · {job} · log entry {size}, {made} · page {page} of {pages}',
} as const
