import { toUtf8 } from '../../../api/domain/log/encoding.ts'
import { sha256 } from '../../../api/server/senses.ts'
import { stampQuery } from '../../../api/server/stamp/request.ts'
import type { FindingCode } from '../../../api/verify/findings.ts'
import { type Authority, infoOf, rejected } from '../../stamps/authority.ts'
import { NONCE, type StampChange, stampLog } from '../../stamps/stamp-log.ts'
import { type GoodLog, makeGoodLog } from '../good-log.ts'
import { recordBytes } from '../make-good.ts'
import { type Files, remake, setText } from '../record-kit.ts'
import { keyOf, signCheckpoint } from '../scripted-log.ts'
import { ALL, type Checker, flip, OURS } from './kit.ts'

/** A log that was stamped, its record taken apart afresh, and the authority. */
export type StampGround = {
  readonly authority: Authority
  readonly good: GoodLog
  readonly files: Files
  /** Size of the log at the stamp. */
  readonly size: number
}
export type StampRow = {
  readonly damage: string
  readonly rule: string
  readonly by: readonly Checker[]
  /** The reader trusts this root, had from elsewhere; none where left out. */
  readonly trusts?: 'root' | 'strange'
  readonly make: (ground: StampGround) => Promise<Uint8Array>
  readonly expect: readonly (readonly [FindingCode, RegExp])[]
}

const token = ({ size }: StampGround): string => `stamps/${size}.tsr`

/** A record of a log whose server kept a stamp with something odd about it, and signed that into the log. */
const keptWith =
  (change: (ground: StampGround) => StampChange) =>
  async (ground: StampGround): Promise<Uint8Array> => {
    const odd = await makeGoodLog({ words: 'odd stamp' })
    await stampLog(odd, ground.authority, change(ground))
    return recordBytes(odd)
  }
const without =
  (name: (ground: StampGround) => string) =>
  async (ground: StampGround): Promise<Uint8Array> => {
    if (!ground.files.delete(name(ground))) throw new Error('there is nothing to leave out')
    return remake(ground.files, ground.good.log)
  }
const signedBy = (signer: Parameters<Authority['signedBy']>[1]) =>
  keptWith(({ authority }) => ({ response: (plain) => authority.signedBy(plain, signer) }))

/** The last byte of what the authority signed for lies in its fraction, accuracy or nonce: all of it is hashed. */
const inInfo = (response: Uint8Array): Uint8Array => {
  const signed = infoOf(response)
  return flip(response, Buffer.from(response).indexOf(signed) + signed.length - 1)
}

export const STAMP_ROWS: readonly StampRow[] = [
  {
    damage: 'a time stamp left out',
    rule: 'L41.12',
    by: ALL,
    make: without(token),
    expect: [['stamp-missing', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'the proof of what a time stamp reaches left out',
    rule: 'L41.12',
    by: ALL,
    make: without(({ size }) => `stamps/${size}.tlog-proof`),
    expect: [['file-missing', /^stamps\/\d+\.tlog-proof$/]],
  },
  {
    damage: 'a hash of that proof changed',
    rule: 'L41.12',
    by: ALL,
    make: async ({ good, files, size }) => {
      setText(files, `stamps/${size}.tlog-proof`, (proof) => proof.replace(/^(index \d+\n).{4}/m, '$1AAAA'))
      return remake(files, good.log)
    },
    expect: [['inclusion-failed', /^stamps\/\d+\.tlog-proof$/]],
  },
  {
    damage: 'that proof in a later version',
    rule: 'L44',
    by: ALL,
    make: async ({ good, files, size }) => {
      setText(files, `stamps/${size}.tlog-proof`, (proof) => proof.replace('tlog-proof@v1', 'tlog-proof@v2'))
      return remake(files, good.log)
    },
    expect: [['format-unknown', /^stamps\/\d+\.tlog-proof$/]],
  },
  {
    damage: 'the stamped checkpoint left out',
    rule: 'L41.12',
    by: ALL,
    make: without(({ size }) => `earlier/${size}.note`),
    expect: [['file-missing', /^earlier\/\d+\.note$/]],
  },
  {
    damage: 'the way from the stamped checkpoint left out',
    rule: 'L41.12',
    by: ALL,
    make: without(({ size }) => `earlier/${size}.consistency`),
    expect: [['consistency-missing', /^earlier\/\d+\.consistency$/]],
  },
  {
    damage: 'another checkpoint in the place of the stamped one',
    rule: 'L41.12',
    by: ALL,
    make: async ({ good, files, size }) =>
      remake(files.set(`earlier/${size}.note`, toUtf8(good.log.checkpoints[0]!.note)), good.log),
    expect: [['stamp-differs', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a time stamp that the log does not name',
    rule: 'L39',
    by: ALL,
    make: async (ground) => {
      ground.files.set('stamps/7.tsr', ground.files.get(token(ground))!)
      return remake(ground.files, ground.good.log)
    },
    expect: [['file-unlisted', /^stamps\/7\.tsr$/]],
  },
  {
    damage: 'another good time stamp over the same checkpoint, which the log does not name',
    rule: 'L41.12',
    by: ALL,
    make: async (ground) => {
      const note = ground.files.get(`earlier/${ground.size}.note`)!
      const other = ground.authority.reply(stampQuery(sha256(note), NONCE))
      return remake(ground.files.set(token(ground), other), ground.good.log)
    },
    expect: [['stamp-differs', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a byte of what the authority signed for changed',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ response: inInfo })),
    expect: [['stamp-signature', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a byte of the authority’s signature changed',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ response: (plain) => flip(plain, plain.length - 9) })),
    expect: [['stamp-signature', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a time stamp for other data',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ stamped: toUtf8('something else\n') })),
    expect: [['stamp-differs', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a time stamp of another request',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ body: { nonce: '00112233445566778899aabbccddeeff' } })),
    expect: [['stamp-differs', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a log that names another time than the authority',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ body: { stampedAt: '2026-04-21T12:00:00.000+00:00' } })),
    expect: [['stamp-differs', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a time stamp cut off',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ response: (plain) => plain.slice(0, -40) })),
    expect: [['stamp-malformed', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'bytes after a time stamp’s end',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ response: (plain) => new Uint8Array([...plain, 0]) })),
    expect: [['stamp-malformed', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'an authority’s refusal kept as a stamp',
    rule: 'L41.12',
    by: OURS,
    make: keptWith(() => ({ response: rejected })),
    expect: [['stamp-malformed', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a certificate whose purpose is not critical',
    rule: 'L41.12',
    by: OURS,
    make: signedBy('lax'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a certificate for other things too',
    rule: 'L41.12',
    by: OURS,
    make: signedBy('both'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a certificate for web servers',
    rule: 'L41.12',
    by: OURS,
    make: signedBy('web'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a certificate that was not valid at the time',
    rule: 'L41.12',
    by: OURS,
    make: signedBy('expired'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'a certificate by somebody else under the root’s name',
    rule: 'L41.12',
    by: OURS,
    make: signedBy('impostor'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'the same, for a reader who has the root’s certificate',
    rule: 'L41.12',
    by: OURS,
    trusts: 'root',
    make: signedBy('impostor'),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'nothing, for a reader who trusts another authority',
    rule: 'L41.12',
    by: OURS,
    trusts: 'strange',
    make: async ({ good }) => recordBytes(good),
    expect: [['stamp-authority', /^stamps\/\d+\.tsr$/]],
  },
  {
    damage: 'the whole log made anew under a new key, with the stamp of the first',
    rule: 'L41.12',
    by: ALL,
    make: async ({ good, size }) => {
      // The forger has every key but the first log's; the stamp is over a checkpoint that the first one signed.
      const log = { ...good.log, key: keyOf('a new key') }
      const checkpoints = await Promise.all(good.log.checkpoints.map((c) => signCheckpoint(log, c.size)))
      const forged = {
        ...log,
        checkpoints: checkpoints.map((c, i) => (c.size === size ? good.log.checkpoints[i]! : c)),
      }
      return recordBytes({ ...good, log: forged })
    },
    expect: [
      ['stamp-differs', /^stamps\/\d+\.tsr$/],
      ['founding-differs', /^company\//],
    ],
  },
]
