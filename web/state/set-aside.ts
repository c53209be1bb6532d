import { setAsideAnswer } from '../../api/contract/messages/set-aside.ts'
import { PROBLEMS } from '../../api/contract/problems.ts'
import type { Entry } from '../../api/domain/entry/envelope.ts'
import { isUnread, readEntry } from '../../api/domain/entry/read.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { DeviceWorld } from '../device/world.ts'
import { ask, readAnswer } from '../sync/answer.ts'
import { WireDown } from '../sync/wire.ts'

/** One entry that was set aside, as far as this program can read it. */
export type SetAsideLine = {
  readonly hash: string
  readonly receivedAt: number
  readonly is: 'waiting' | 'admitted' | 'declined' | 'refused'
  readonly says: { readonly is: 'entry'; readonly entry: Entry } | { readonly is: 'unreadable' | 'newer' }
}

export type SetAsideList = { readonly lines: readonly SetAsideLine[] } | { readonly problem: LabelKey }

/** All that was set aside of a device, asked of the server: this phone's copy of the log has the hashes alone. */
export const readSetAside = async (world: DeviceWorld, device: string): Promise<SetAsideList> => {
  const lines: SetAsideLine[] = []
  try {
    for (let more = true; more; ) {
      const path = `/api/set-aside/${device}?from=${lines.length}`
      const answer = readAnswer(await ask(world, { method: 'GET', path }), setAsideAnswer)
      if (!answer.ok) return { problem: PROBLEMS[answer.refused.code].says }
      for (const { hash, entry, receivedAt, is } of answer.value.entries)
        lines.push({ hash, receivedAt, is, says: readSaying(world, entry) })
      more = answer.value.more && answer.value.entries.length > 0
    }
  } catch (error) {
    if (error instanceof WireDown) return { problem: 'needsNetwork' }
    throw error
  }
  return { lines }
}

const readSaying = (world: DeviceWorld, text: string): SetAsideLine['says'] => {
  const read = readEntry(toUtf8(text), world.sha256)
  if (!read.ok) return { is: 'unreadable' }
  return isUnread(read.value) ? { is: 'newer' } : { is: 'entry', entry: read.value.entry }
}
