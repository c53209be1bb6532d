import type { RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import { fingerprintDrawing, loggedByText, scopeRows, tallyDrawing } from './cover.ts'
import type { Speech } from './speech.ts'

export const jobName = ({ job }: RecordModel, speech: Speech): string =>
  job.name.map((name) => name.text).join(speech.say('recOr')) || speech.say('recNoName')

export const opening = (model: RecordModel, speech: Speech): Block[] => {
  const { job, thread, checkpoint, company } = model
  const named = company.is === 'given' ? company.name : speech.say('recNotRecorded')
  const zone = job.zone.map((said) => said.text).join(speech.say('recOr')) || speech.say('recNotRecorded')
  const of = (is: string) => thread.filter((slot) => slot.is === is).length
  return [
    {
      is: 'paragraph',
      text: speech.say('recWhat', { company: named, zone, offset: speech.offset, day: speech.day }),
    },
    tallyDrawing(model, speech),
    {
      is: 'pairs',
      rows: [
        [speech.say('recJob'), `${jobName(model, speech)} (${job.job})`],
        ...scopeRows(model, speech),
        [speech.say('recCompany'), `${named} (${model.origin})`],
        [speech.say('recLoggedBy'), loggedByText(model, speech)],
        [
          speech.say('recEntries'),
          speech.say('recEntriesAre', {
            count: thread.length,
            withheld: of('withheld'),
            unread: of('unread'),
          }),
        ],
        [speech.say('recAsOf'), speech.say('recAsOfIs', { made: model.made, size: checkpoint.size })],
        [speech.say('recRoot'), checkpoint.root],
        [speech.say('recMade'), speech.say('recMadeIs', { release: model.release })],
      ],
    },
    { is: 'subheading', text: speech.say('recFingerprint') },
    fingerprintDrawing(model),
    { is: 'paragraph', text: speech.say('recFingerprintIs') },
    { is: 'heading', text: speech.say('recReadThis') },
    {
      is: 'list',
      items: (['recReadLate', 'recReadChanges', 'recReadWords', 'recReadLast'] as const).map((key) =>
        speech.say(key),
      ),
    },
  ]
}

export const closing = (model: RecordModel, speech: Speech): Block[] => [
  // On a sheet of its own: whoever reads nothing else should find it.
  { is: 'sheet' },
  { is: 'heading', text: speech.say('recNotShown') },
  {
    is: 'list',
    items: (
      [
        'recNotShown1',
        'recNotShown2',
        model.stamps.length > 0 ? 'recNotShown3Stamped' : 'recNotShown3',
        'recNotShown4',
        'recNotShown5',
      ] as const
    ).map((key) => speech.say(key)),
  },
  { is: 'heading', text: speech.say('recHow') },
  {
    is: 'list',
    items: [
      speech.say('recHow1'),
      speech.say('recHow2', { key: model.logKey }),
      speech.say('recHow3'),
      ...model.stamps.map(({ size, stampedAt, upTo }) =>
        speech.say('recHowStamp', { size, at: stampedAt, upTo }),
      ),
      ...(model.checkerHash === undefined
        ? []
        : [speech.say('recHowPage', { hash: model.checkerHash, release: model.release })]),
    ],
  },
]
