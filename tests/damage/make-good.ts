import { type MakeRecordRequest, makeRecord } from '../../api/server/record/make-record.ts'
import type { GoodLog } from './good-log.ts'
import { storeOf } from './scripted-log.ts'

export const RELEASE = '0.1.0'

export const requestOf = (good: GoodLog, more: Partial<MakeRecordRequest> = {}): MakeRecordRequest => ({
  store: storeOf(good.log),
  company: good.log.company,
  job: good.job,
  language: 'en',
  release: RELEASE,
  log: { noteKey: { name: good.log.origin, publicKey: good.log.key.publicKey }, sign: good.log.key.sign },
  photos: async (hash) => {
    const bytes = good.photos.get(hash)
    return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>]).stream()
  },
  ...more,
})

/** The record's bytes; throws where it could not be made. */
export const recordBytes = async (
  good: GoodLog,
  more: Partial<MakeRecordRequest> = {},
): Promise<Uint8Array> => {
  const made = await makeRecord(requestOf(good, more))
  if (!made.ok) throw new Error(JSON.stringify(made.problem))
  return new Uint8Array(await new Response(made.value).arrayBuffer())
}
