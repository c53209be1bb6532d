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
} as const
