import { canonicalJson } from '../../domain/log/bytes.ts'
import { toHex, toUtf8 } from '../../domain/log/encoding.ts'
import type { RecordModel } from '../../domain/record/model.ts'
import { tablesOf } from '../../domain/record/tables/tables.ts'
import type { Collected } from './collect.ts'
import type { Member } from './write-zip.ts'

export type SmallFile = Extract<Member, { readonly bytes: Uint8Array }>

const text = (name: string, content: string): SmallFile => ({ name, bytes: toUtf8(content) })

/** `entries/000012.json`: SPEC L39. */
export const entryName = (count: number): string => `entries/${String(count).padStart(6, '0')}.json`

/** All files that the log itself gives: leaves, entries, proofs, notes. */
export const logFiles = (collected: Collected, logKey: string): SmallFile[] => [
  text('log.vkey', `${logKey}\n`),
  text('checkpoint.note', collected.checkpoint.note),
  text('thread.txt', collected.thread.map(({ leaf }) => `${toHex(leaf)}\n`).join('')),
  text('thread.tlog-proof', collected.threadProof),
  ...collected.thread.flatMap(({ count, bytes }) => (bytes ? [{ name: entryName(count), bytes }] : [])),
  ...collected.authors.map((author) => text(`authors/${author.entry}.tlog-proof`, author.text)),
  ...collected.company.flatMap(({ entryHash, bytes, leaf, proof }) =>
    bytes
      ? [
          { name: `company/${entryHash}.json`, bytes },
          text(`company/${entryHash}.leaf`, `${toHex(leaf)}\n`),
          text(`company/${entryHash}.tlog-proof`, proof),
        ]
      : [],
  ),
  ...collected.earlier.flatMap(({ size, consistency, note }) => [
    text(`earlier/${size}.consistency`, consistency),
    ...(note === undefined ? [] : [text(`earlier/${size}.note`, note)]),
  ]),
  ...collected.stamps.flatMap(({ size, response, proof }) => [
    ...(response === undefined ? [] : [{ name: `stamps/${size}.tsr`, bytes: response }]),
    ...(proof === undefined ? [] : [text(`stamps/${size}.tlog-proof`, proof)]),
  ]),
]

/** What the entries come to, as files. */
export const figureFiles = (model: RecordModel): SmallFile[] => [
  text('record.json', canonicalJson(model)),
  ...tablesOf(model).map((table) => text(table.name, table.text)),
]
