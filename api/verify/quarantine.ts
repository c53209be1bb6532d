import { foldQuarantine } from '../domain/access/quarantine.ts'
import { toHex } from '../domain/log/encoding.ts'
import type { Quoted } from './company.ts'
import type { Context } from './context.ts'
import { knownEntry } from './entries.ts'
import type { Thread } from './thread.ts'

/**
 * L56: what was set aside stands in the log only after an owner admitted it, as far as quoted entries say. Of a withheld
 * entry too, since its hash is in its leaf.
 */
export const checkQuarantine = ({ report }: Context, quoted: readonly Quoted[], thread: Thread): void => {
  const affairs = quoted.flatMap(({ file, leaf, hash }) => {
    const entry = file && knownEntry(file)
    return entry && leaf ? [{ hash, entry }] : []
  })
  const quarantine = foldQuarantine(affairs)
  for (const [i, leaf] of thread.leaves.entries()) {
    const is = leaf && quarantine.get(toHex(leaf.entryHash))
    if (is && is.is !== 'admitted')
      report(
        'entry-set-aside',
        'thread.txt',
        `line ${i + 1}: its entry was set aside, and no owner admitted it`,
      )
  }
  for (const { hash } of quoted)
    if (quarantine.has(hash))
      report(
        'entry-set-aside',
        `company/${hash}.leaf`,
        'its entry was set aside, and is of the company’s affairs',
      )
}
