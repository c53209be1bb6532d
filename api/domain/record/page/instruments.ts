import type { Kind } from '../../entry/registry.ts'
import type { Taking } from '../../entry/taking.ts'
import type { RecordModel } from '../model.ts'
import type { SaidModel } from '../said.ts'
import type { Block } from './blocks.ts'
import type { Speech } from './speech.ts'

type Reading = {
  readonly kind: Kind
  readonly load: string | undefined
  readonly said: SaidModel
  readonly taking: Taking
}

/** Who took the readings, for whom they work, with what and on which certificate: as far as each reading says it. */
export const instrumentBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const readings = readingsOf(model)
  const groups = new Map<string, { readonly who: readonly string[]; readonly of: string[] }>()
  const lacks = speech.say('recNotRecorded')
  const value = (name: 'taker' | 'employer' | 'instrument' | 'certificate', taking: Taking) =>
    taking[name] === undefined ? lacks : speech.value(name, taking[name])
  for (const { kind, load, said, taking } of readings) {
    const who = [
      value('instrument', taking),
      value('taker', taking),
      value('employer', taking),
      value('certificate', taking),
    ]
    const key = who.join('\n')
    const group = groups.get(key) ?? { who, of: [] }
    const place = load === undefined ? '' : ` (${speech.place(load)})`
    group.of.push(`${speech.words.kinds[kind]}${place} ${speech.time(said.at)}`)
    groups.set(key, group)
  }
  const head = [
    speech.field('instrument'),
    speech.field('taker'),
    speech.field('employer'),
    speech.field('certificate'),
    speech.say('recReadings'),
  ]
  return [
    { is: 'heading', text: speech.say('recInstrumentsHead') },
    ...(readings.length === 0
      ? [{ is: 'paragraph', text: speech.say('recNoReadings') } as const]
      : [
          {
            is: 'grid',
            widths: [32, 22, 32, 24, 78],
            rows: [head, ...[...groups.values()].flatMap(({ who, of }) => rowsOf(who, of))],
          } as const,
        ]),
    { is: 'paragraph', text: speech.say('recCalibration') },
  ]
}

/** A row is never split over two sheets: a long list of readings goes on in further rows. */
const IN_A_ROW = 12

const rowsOf = (who: readonly string[], of: readonly string[]): string[][] => {
  const rows: string[][] = []
  for (let from = 0; from < of.length; from += IN_A_ROW)
    rows.push([...who, of.slice(from, from + IN_A_ROW).join('; ')])
  return rows
}

const readingsOf = ({ job }: RecordModel): Reading[] => {
  const of = (
    kind: Kind,
    load: string | undefined,
    all: readonly (SaidModel & { readonly body: { readonly taking?: Taking | undefined } })[],
  ): Reading[] =>
    all.flatMap((said) => (said.body.taking ? [{ kind, load, said, taking: said.body.taking }] : []))
  return [
    ...job.loads.flatMap((load) => [
      ...load.slump.flatMap((said): Reading[] =>
        said.taking ? [{ kind: 'slump.measured', load: load.load, said, taking: said.taking }] : [],
      ),
      ...of('flow.measured', load.load, load.slumpFlow),
      ...of('air.measured', load.load, load.air),
      ...of('temperature.measured', load.load, load.temperatures),
      ...of('density.measured', load.load, load.density),
      ...of('cylinders.made', load.load, load.cylinders),
    ]),
    ...of('temperature.measured', undefined, job.said.temperatures),
  ]
}
