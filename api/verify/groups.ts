import { type FindingCode, isFailure } from './findings.ts'
import type { Verdict } from './verify.ts'

/** What a check asks, in the order in which a reader wants the answers. */
export const GROUPS = [
  'files',
  'log',
  'thread',
  'entries',
  'authors',
  'company',
  'seen',
  'photos',
  'figures',
  'pdf',
  'slip',
  'stamps',
] as const
export type Group = (typeof GROUPS)[number]

export const GROUP_OF: Readonly<Record<FindingCode, Group>> = {
  'zip-malformed': 'files',
  'file-missing': 'files',
  'file-unlisted': 'files',
  'file-differs': 'files',
  'sums-differ': 'files',
  'manifest-signature': 'files',
  'manifest-malformed': 'files',
  'format-unknown': 'files',
  'key-malformed': 'log',
  'key-differs': 'log',
  'checkpoint-signature': 'log',
  'checkpoint-malformed': 'log',
  'checkpoint-differs': 'log',
  'leaf-malformed': 'thread',
  'leaf-format-unknown': 'thread',
  'thread-count': 'thread',
  'thread-link': 'thread',
  'thread-tag': 'thread',
  'leaf-repeated': 'thread',
  'inclusion-failed': 'thread',
  'entry-set-aside': 'thread',
  'entry-malformed': 'entries',
  'entry-differs': 'entries',
  'entry-thread': 'entries',
  'entry-unread': 'entries',
  'founding-missing': 'company',
  'founding-differs': 'company',
  'device-unknown': 'authors',
  'head-signature': 'authors',
  'head-malformed': 'authors',
  'author-proof': 'authors',
  'author-missing': 'authors',
  'author-differs': 'authors',
  'heads-fork': 'seen',
  'consistency-failed': 'seen',
  'consistency-missing': 'seen',
  'seen-ahead': 'seen',
  'earlier-signature': 'seen',
  'earlier-differs': 'seen',
  'photo-differs': 'photos',
  'photo-missing': 'photos',
  'slip-disagrees': 'slip',
  'slip-malformed': 'slip',
  'slip-later': 'slip',
  'slip-unknown': 'slip',
  'stamp-missing': 'stamps',
  'stamp-malformed': 'stamps',
  'stamp-differs': 'stamps',
  'stamp-signature': 'stamps',
  'stamp-authority': 'stamps',
  'figures-differ': 'figures',
  'table-differs': 'figures',
  'pdf-differs': 'pdf',
}

/**
 * What tells a log from one that somebody made anew as a whole: its key, had from elsewhere, or at least a slip or a stamp of
 * a trusted authority, which tell it from one that was made anew since. With neither, only the record's own word is there.
 */
export type Anchor = 'key' | 'since' | 'none'

export const anchorOf = ({ keySource, checked, stamps, findings }: Verdict): Anchor => {
  if (keySource === 'given') return 'key'
  const slipHolds = checked.slips > 0 && !findings.some(({ code }) => GROUP_OF[code] === 'slip')
  return slipHolds || stamps.some(({ is, rootedIn }) => is === 'holds' && rootedIn === 'given')
    ? 'since'
    : 'none'
}

/** Whether a question was asked of this record at all, and what came of it. */
export type ToldGroup = {
  readonly group: Group
  readonly is: 'holds' | 'fails' | 'not-checked' | 'nothing-there'
}

/** The groups' answers. What could not be asked is never shown as holding. */
export const tellGroups = ({ findings, checked, keySource, stamps }: Verdict): ToldGroup[] => {
  const failed = new Set(findings.filter(isFailure).map(({ code }) => GROUP_OF[code]))
  const asked: Readonly<Record<Group, ToldGroup['is']>> = {
    files: checked.files > 0 ? 'holds' : 'not-checked',
    log: keySource === 'none' ? 'not-checked' : 'holds',
    thread: checked.leaves > 0 ? 'holds' : 'not-checked',
    entries: checked.entries > 0 ? 'holds' : 'nothing-there',
    authors: checked.authors > 0 ? 'holds' : 'not-checked',
    company: checked.quoted > 0 ? 'holds' : 'not-checked',
    seen: checked.earlier > 0 ? 'holds' : 'nothing-there',
    photos: checked.photos > 0 ? 'holds' : 'nothing-there',
    figures: checked.figures === 'compared' ? 'holds' : 'not-checked',
    pdf: checked.pdf === 'compared' ? 'holds' : 'not-checked',
    slip: checked.slips > 0 ? 'holds' : 'not-checked',
    stamps:
      stamps.length === 0
        ? 'nothing-there'
        : stamps.some(({ at }) => at !== undefined)
          ? 'holds'
          : 'not-checked',
  }
  return GROUPS.map((group) => ({ group, is: failed.has(group) ? 'fails' : asked[group] }))
}
