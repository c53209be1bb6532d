import type { Taking } from '../../../entry/taking.ts'
import type { LoadModel } from '../../load-model.ts'
import type { SaidModel } from '../../said.ts'
import { readingText, slumpText } from '../answers.ts'
import { labelled, named, type Row } from '../cells.ts'
import type { Speech } from '../speech.ts'
import { takingText } from '../taking.ts'
import { toleranceTexts } from '../tolerances.ts'

/** Each reading in a line: the value, who and when; how it was taken; where it lies against what was asked for. */
export const READING_ROWS: readonly Row[] = [
  {
    label: labelled('recSlumpRow'),
    cell: (load, speech) =>
      load.slump.map((one) => reading(slumpText(one, speech), one, one.taking, load, speech)),
    always: true,
  },
  {
    label: named('flow'),
    cell: (load, speech) =>
      load.slumpFlow.map((one) =>
        reading(readingText(one.body.flow, speech), one, one.body.taking, load, speech),
      ),
  },
  {
    label: (speech) => speech.words.kinds['air.measured'],
    cell: (load, speech) =>
      load.air.map((one) => reading(airText(one.body, speech), one, one.body.taking, load, speech)),
    always: true,
  },
  {
    label: labelled('recConcreteTemperature'),
    cell: (load, speech) => temperatures(load, speech, 'concrete'),
    always: true,
  },
  { label: labelled('recAirTemperature'), cell: (load, speech) => temperatures(load, speech, 'air') },
  { label: labelled('recSurfaceTemperature'), cell: (load, speech) => temperatures(load, speech, 'surface') },
  {
    label: named('density'),
    cell: (load, speech) =>
      load.density.map((one) =>
        reading(readingText(one.body.density, speech), one, one.body.taking, load, speech),
      ),
  },
  {
    label: (speech) => speech.words.kinds['cylinders.made'],
    cell: (load, speech) =>
      load.cylinders.map((one) =>
        reading(cylindersText(one.body, speech), one, one.body.taking, load, speech),
      ),
    always: true,
  },
  {
    label: named('strength'),
    cell: (load, speech) => load.strength.map((one) => speech.saidAt(strengthText(one.body, speech), one)),
  },
]

const reading = (
  text: string,
  said: SaidModel,
  taking: Taking | undefined,
  load: LoadModel,
  speech: Speech,
): string =>
  [
    speech.saidAt(text, said),
    ...toleranceTexts(load.tolerances, said.entry, speech),
    ...(taking === undefined ? [] : [takingText(taking, speech)]),
  ].join('; ')

type Body<K extends 'air' | 'cylinders' | 'strength'> = LoadModel[K][number]['body']

const airText = ({ air, method, aggregateCorrection }: Body<'air'>, speech: Speech): string =>
  [
    readingText(air, speech),
    ...(method === undefined ? [] : [speech.words.codes[method]]),
    ...(aggregateCorrection === undefined ? [] : [speech.body({ aggregateCorrection })]),
  ].join(', ')

const cylindersText = ({ number, size, label, doneAt }: Body<'cylinders'>, speech: Speech): string =>
  [
    number.is === 'given' ? number.text : speech.say(number.is === 'none' ? 'recNoneMade' : 'recNotTaken'),
    ...(size === undefined ? [] : [speech.words.codes[size]]),
    ...(label === undefined ? [] : [speech.body({ label })]),
    ...(doneAt === undefined ? [] : [speech.body({ doneAt })]),
  ].join(', ')

const strengthText = ({ days, breaks, laboratory, reportedAt }: Body<'strength'>, speech: Speech): string =>
  [
    speech.say('recStrengthAt', { days, breaks: breaks.map((one) => speech.quantity(one)).join(', ') }),
    ...(laboratory === undefined ? [] : [speech.body({ laboratory })]),
    ...(reportedAt === undefined ? [] : [speech.body({ reportedAt })]),
  ].join(', ')

const temperatures = (load: LoadModel, speech: Speech, of: 'concrete' | 'air' | 'surface'): string[] =>
  load.temperatures
    .filter(({ body }) => body.of === of)
    .map((one) => reading(readingText(one.body.temperature, speech), one, one.body.taking, load, speech))
