import sharp from 'sharp'
import { type Happening, makeEntry, uuidV7 } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { toBase64, toHex } from '../../api/domain/log/encoding.ts'
import { readLocalTime, toLocalTime } from '../../api/domain/time.ts'
import { sha256 } from '../../api/server/senses.ts'
import {
  chanceOf,
  emptyLog,
  keyOf,
  type ScriptedDevice,
  type ScriptedLog,
  takePush,
  utc,
} from './scripted-log.ts'

/** 21 April 2026 at the forms: all names, numbers and places are invented. */
export const at = (clock: string): string => `2026-04-21T${clock}:00-05:00`
const ms = (clock: string): number => readLocalTime(at(clock))!

export type GoodLog = {
  readonly log: ScriptedLog
  readonly job: string
  readonly photos: ReadonlyMap<string, Uint8Array>
  /** Hash of an entry by the script's name for it. */
  readonly named: ReadonlyMap<string, string>
  readonly devices: {
    readonly server: ScriptedDevice
    readonly phone: ScriptedDevice
    readonly second: ScriptedDevice
  }
  /** Pushes one more entry from Curt's phone, at 11:30 or when told. */
  readonly pushMore: (bytes: Uint8Array, time?: string) => Promise<void>
  /** Makes an entry of Curt's at a time; `by` the server where the kind is the server's. */
  readonly make: <K extends Kind>(
    kind: K,
    body: Happening<K>['body'],
    time: string,
    said?: { by: 'server' },
  ) => Uint8Array
}

/** A remark as a joker would write it; every character of it must come out as it is. */
export const HOSTILE_REMARK =
  '#eval("1+1") *not bold* $x^2$ <script>alert(1)</script> `raw` @cite \\u{41} =1+1 😀 العربية ' +
  `Ж e\u0301 \u202E"quoted", ${'W'.repeat(140)} end`

type Said = Partial<Pick<Happening<Kind>, 'corrects' | 'why' | 'evidence' | 'source'>> & { recorded?: string }

/**
 * The log of Brindlefork Flatwork on the day of the Pellowick drive: two loads, two phones, a correction, a withdrawal,
 * a late entry, two answers to one question, a photo, a refusal, and another job in between.
 */
export const makeGoodLog = async ({
  words = 'good',
  hostile = false,
  lateServer = false,
  /** Photos beyond the ticket's, by hash and length: taken at the end of the day, and received. */
  morePhotos = [] as readonly { readonly hash: string; readonly bytes: number }[],
} = {}): Promise<GoodLog> => {
  const chance = chanceOf(words)
  const id = (time: string): string => uuidV7(ms(time), chance)
  const [company, job, otherJob, load1, load2] = [
    id('05:00'),
    id('05:30'),
    id('05:31'),
    id('07:30'),
    id('08:30'),
  ] as const
  const [curt, marisol, beto] = [id('05:01'), id('05:02'), id('05:03')] as const
  const device = (name: string): ScriptedDevice => ({
    id: id('05:04'),
    key: keyOf(`${words} ${name}`),
    epoch: 1,
  })
  const server = device('server')
  const phone = device('phone of Curt')
  const second = device('phone of Marisol')
  const boot = id('05:05')
  const log = emptyLog(company, `${words} log`)
  const named = new Map<string, string>()

  const make = <K extends Kind>(
    person: string | undefined,
    on: ScriptedDevice,
    thread: string,
    kind: K,
    body: Happening<K>['body'],
    time: string,
    said: Said & { name?: string } = {},
  ): Uint8Array => {
    const recorded = ms(said.recorded ?? time) + 9_000
    const occurredAt = person === undefined ? utc(ms(time)) : at(time)
    const bytes = makeEntry(
      {
        job: thread,
        kind,
        body,
        occurredAt,
        source: person === undefined ? 'server' : (said.source ?? 'tap'),
        ...(said.evidence ? { evidence: said.evidence } : {}),
        ...(said.corrects ? { corrects: said.corrects } : {}),
        ...(said.why ? { why: said.why } : {}),
      },
      {
        device: on.id,
        by: person === undefined ? { known: 'server' } : { person, known: 'own-device' },
        boot,
      },
      {
        now: recorded,
        recordedAt: person === undefined ? utc(recorded) : toLocalTime(recorded, 'America/Chicago'),
        mono: recorded - ms('05:00'),
      },
      chance,
    )
    if (said.name) named.set(said.name, hashEntry(bytes, sha256))
    return bytes
  }
  const push = (on: ScriptedDevice, time: string, seen: number, entries: Uint8Array[], ahead = 0) =>
    takePush(log, { device: on, entries, receivedAt: ms(time) + 11_125, seen, boot, ahead })
  const of = (name: string): string => named.get(name)!

  const first = [
    make(
      undefined,
      server,
      company,
      'company.founded',
      {
        name: 'Brindlefork Flatwork',
        zone: 'America/Chicago',
        origin: log.origin,
        logKey: toBase64(log.key.publicKey),
      },
      '05:10',
    ),
    make(
      undefined,
      server,
      company,
      'device.enrolled',
      { device: server.id, key: toBase64(server.key.publicKey), use: 'server' },
      '05:10',
    ),
    make(undefined, server, company, 'owner.named', { person: curt, name: 'Curt' }, '05:10'),
    make(
      undefined,
      server,
      company,
      'device.enrolled',
      { device: phone.id, person: curt, key: toBase64(phone.key.publicKey), use: 'phone' },
      '05:10',
    ),
  ]
  // A faulty server: its own device does not stand where the specification has it.
  await push(server, '05:10', 0, lateServer ? [first[0]!, first[2]!, first[1]!, first[3]!] : first)
  await push(phone, '05:20', 4, [
    make(
      curt,
      phone,
      company,
      'person.added',
      { person: marisol, name: 'Marisol', role: 'foreman' },
      '05:20',
    ),
    make(curt, phone, company, 'person.added', { person: beto, name: 'Beto', role: 'crew' }, '05:20'),
  ])
  await push(server, '05:25', 6, [
    make(
      undefined,
      server,
      company,
      'device.enrolled',
      { device: second.id, person: marisol, key: toBase64(second.key.publicKey), use: 'phone' },
      '05:25',
    ),
  ])
  await push(phone, '06:10', 7, [
    make(curt, phone, job, 'job.opened', { name: 'Pellowick drive', zone: 'America/Chicago' }, '06:00'),
    make(curt, phone, job, 'concrete.ordered', { yards: { is: 'given', text: '16', unit: 'yd3' } }, '06:02'),
    make(curt, phone, otherJob, 'job.opened', { name: 'Tern Court walk', zone: 'America/Chicago' }, '06:04'),
  ])

  const photo = await sharp({ create: { width: 64, height: 48, channels: 3, background: '#8a8578' } })
    .jpeg()
    .toBuffer()
  const photoHash = toHex(sha256(photo))
  await push(
    phone,
    '08:20',
    10,
    [
      make(curt, phone, job, 'load.arrived', { load: load1 }, '07:33', { name: 'arrived 1' }),
      make(
        curt,
        phone,
        job,
        'ticket.recorded',
        {
          load: load1,
          number: { is: 'given', text: '71340' },
          truck: { is: 'given', text: '218' },
          yards: { is: 'given', text: '8', unit: 'yd3' },
          batchedAt: { is: 'given', at: '2026-04-21T07:05-05:00' },
          limit: { is: 'given', text: '90', unit: 'min', to: 'discharge-ended' },
        },
        '07:35',
      ),
      make(
        curt,
        phone,
        job,
        'photo.taken',
        { photo: photoHash, bytes: photo.length, type: 'image/jpeg', shows: 'ticket', load: load1 },
        '07:36',
        { evidence: [photoHash], source: 'photo', name: 'photo' },
      ),
      make(curt, phone, job, 'water.added', { load: load1, amount: { is: 'none' } }, '07:40', {
        name: 'water 1',
      }),
      make(curt, phone, job, 'discharge.started', { load: load1 }, '07:41'),
      make(
        curt,
        phone,
        job,
        'slump.measured',
        { load: load1, slump: { is: 'given', text: '5', unit: 'in' }, how: 'cone' },
        '07:51',
        { name: 'slump 5' },
      ),
      make(
        curt,
        phone,
        job,
        'slump.measured',
        { load: load1, slump: { is: 'given', text: '4 1/4', unit: 'in' }, how: 'cone' },
        '07:51',
        {
          corrects: [of('slump 5')],
          why: { lang: 'en', text: 'misread the tape' },
          recorded: '07:53',
          name: 'slump 4 1/4',
        },
      ),
      make(curt, phone, job, 'discharge.ended', { load: load1 }, '08:08'),
      make(curt, phone, job, 'load.left', { load: load1 }, '08:14'),
    ],
    3_000,
  )
  await push(server, '08:22', 19, [
    make(undefined, server, job, 'photo.received', { photo: photoHash, bytes: photo.length }, '08:22'),
  ])
  await push(second, '10:40', 10, [
    make(marisol, second, job, 'load.arrived', { load: load2 }, '09:38'),
    make(
      marisol,
      second,
      job,
      'ticket.recorded',
      {
        load: load2,
        number: { is: 'given', text: '71352' },
        truck: { is: 'given', text: '106' },
        yards: { is: 'given', text: '8.00', unit: 'yd3' },
        batchedAt: { is: 'given', at: '2026-04-21T08:21-05:00' },
        limit: { is: 'not-stated' },
      },
      '09:39',
    ),
    make(
      marisol,
      second,
      job,
      'slump.measured',
      { load: load2, slump: { is: 'given', text: '2 1/2', unit: 'in' }, how: 'by-eye' },
      '09:39',
    ),
    make(
      marisol,
      second,
      job,
      'water.added',
      { load: load2, amount: { is: 'given', text: '12', unit: 'gal' } },
      '09:40',
      { name: 'water 12' },
    ),
    make(marisol, second, job, 'discharge.started', { load: load2 }, '09:45'),
    make(
      marisol,
      second,
      job,
      'water.added',
      { load: load2, amount: { is: 'given', text: '8', unit: 'gal' } },
      '10:00',
      { recorded: '10:35', name: 'water 8' },
    ),
    make(marisol, second, job, 'discharge.ended', { load: load2 }, '10:19'),
    make(marisol, second, job, 'discharge.ended', { load: load2 }, '10:20'),
    make(
      marisol,
      second,
      job,
      'remark.made',
      { remark: { lang: 'en', text: 'left early' }, load: load2 },
      '10:21',
      { name: 'remark' },
    ),
    make(marisol, second, job, 'entry.withdrawn', {}, '10:22', {
      corrects: [of('remark')],
      why: { lang: 'es', text: 'no era de esta camionada' },
    }),
    make(
      marisol,
      second,
      job,
      'remark.made',
      {
        remark: hostile
          ? { lang: 'en', text: HOSTILE_REMARK }
          : { lang: 'en', text: 'Driver says a train held him at the crossing.' },
        load: load2,
      },
      '10:23',
    ),
  ])
  await push(server, '10:41', 31, [
    make(
      undefined,
      server,
      company,
      'entry.refused',
      { hash: toHex(sha256(photo)), device: second.id, code: 'entry-malformed' },
      '10:41',
    ),
  ])
  await push(phone, '11:00', 32, [
    make(curt, phone, otherJob, 'remark.made', { remark: { lang: 'en', text: 'Forms are up.' } }, '10:50'),
  ])
  const taken = morePhotos.map(({ hash, bytes }) =>
    make(
      curt,
      phone,
      job,
      'photo.taken',
      { photo: hash, bytes, type: 'image/jpeg', shows: 'surface' },
      '11:05',
      { evidence: [hash], source: 'photo' },
    ),
  )
  if (taken.length > 0) {
    await push(phone, '11:06', 33, taken)
    const received = morePhotos.map(({ hash: photo, bytes }) =>
      make(undefined, server, job, 'photo.received', { photo, bytes }, '11:07'),
    )
    await push(server, '11:07', 33 + taken.length, received)
  }
  return {
    log,
    job,
    photos: new Map([[photoHash, photo]]),
    named,
    devices: { server, phone, second },
    pushMore: (bytes, time = '11:30') => push(phone, time, log.leaves.length, [bytes]),
    make: (kind, body, time, said) => make(said ? undefined : curt, phone, job, kind, body, time),
  }
}
