import { isKind } from '../../domain/entry/registry.ts'
import { toUtcTime } from '../../domain/time.ts'
import { type CheckKey, sayInCheck } from '../../domain/words/check-words.ts'
import { ENTRY_WORDS, type Language } from '../../domain/words/words.ts'
import { type Finding, isFailure } from '../findings.ts'
import { type Anchor, anchorOf, type Group, type ToldGroup, tellGroups } from '../groups.ts'
import type { ToldStamp } from '../stamps.ts'
import type { ToldEntry } from '../told-entries.ts'
import type { Verdict } from '../verify.ts'
import { codeKey, GROUP_KEYS } from './code-words.ts'
import { el } from './elements.ts'

type Told = { readonly name: string; readonly verdict: Verdict; readonly language: Language }
type Say = (key: CheckKey, parts?: Readonly<Record<string, string | number>>) => string

/** What a check came to: the verdict in large letters, what failed, what was asked, and each entry. */
export const viewOf = ({ name, verdict, language }: Told): HTMLElement => {
  const say: Say = (key, parts) => sayInCheck(language, key, parts)
  const failures = verdict.findings.filter(isFailure)
  const told = verdict.findings.filter((finding) => !isFailure(finding))
  return el(
    'section',
    { 'data-holds': verdict.holds ? 'yes' : 'no', tabindex: '-1', id: 'verdict' },
    el(
      'div',
      { class: verdict.holds ? 'tag holds' : 'tag fails', role: 'status' },
      el('h2', {}, verdict.holds ? `✓ ${say('chkHolds')}` : `✗ ${say('chkFails')}`),
      el('p', {}, say(verdict.holds ? 'chkHoldsIs' : 'chkFailsIs', { name, count: failures.length })),
      el('p', {}, say(verdict.keySource === 'none' ? 'chkKeyNone' : KEY_SENTENCES[anchorOf(verdict)])),
      verdict.holds ? el('p', {}, say('chkNotShown')) : undefined,
    ),
    ...(failures.length > 0 ? findingList(say('chkFound'), failures, say, language) : []),
    ...(told.length > 0 ? findingList(say('chkToldOnly'), told, say, language) : []),
    el('h3', {}, say('chkWhat')),
    el('ul', { class: 'groups' }, ...tellGroups(verdict).map((group) => groupRow(group, verdict, name, say))),
    el('p', { class: 'small' }, say('chkPages')),
    ...(verdict.stamps.length > 0 ? stampList(verdict.stamps, say) : []),
    ...(verdict.entries.length > 0 ? entryList(verdict, say, language) : []),
  )
}

const KEY_SENTENCES: Readonly<Record<Anchor, CheckKey>> = {
  key: 'chkKeyGiven',
  since: 'chkKeySince',
  none: 'chkKeyRecord',
}

/** Whatever a damaged file calls itself, it is shown as one line. */
const oneLine = (text: string): string => text.replaceAll(/\p{C}/gu, '?')

const findingList = (
  title: string,
  findings: readonly Finding[],
  say: Say,
  language: Language,
): HTMLElement[] => [
  el('h3', {}, title),
  el(
    'ol',
    { class: 'findings' },
    ...findings.map(({ code, file, detail }) =>
      el(
        'li',
        { 'data-code': code, 'data-file': file },
        el('strong', {}, file === '-' ? say('chkWholeRecord') : `${say('chkFile')} ${oneLine(file)}`),
        el('p', {}, say(codeKey(code))),
        el(
          'p',
          { class: 'small' },
          `${say('chkDetail')} `,
          el('span', language === 'en' ? {} : { lang: 'en' }, oneLine(detail)),
          ` · ${say('chkCode')} ${code}`,
        ),
      ),
    ),
  ),
]

const STATES: Readonly<Record<ToldGroup['is'], { mark: string; key: CheckKey }>> = {
  holds: { mark: '✓', key: 'chkStateHolds' },
  fails: { mark: '✗', key: 'chkStateFails' },
  'not-checked': { mark: '?', key: 'chkStateNotChecked' },
  'nothing-there': { mark: '–', key: 'chkStateNothing' },
}

const groupRow = ({ group, is }: ToldGroup, verdict: Verdict, name: string, say: Say): HTMLElement => {
  const { mark, key } = STATES[is]
  const why = is === 'not-checked' ? WHY[group] : undefined
  return el(
    'li',
    { class: is, 'data-group': group, 'data-is': is },
    el('span', { class: 'mark' }, `${mark} ${say(key)}`),
    el(
      'span',
      {},
      say(GROUP_KEYS[group], { count: countOf(group, verdict) }),
      why ? el('span', { class: 'small' }, ` ${say(why, { name })}`) : undefined,
    ),
  )
}

const WHY: Readonly<Partial<Record<Group, CheckKey>>> = {
  pdf: 'chkPdfWhy',
  slip: 'chkSlipWhy',
  stamps: 'chkStampsWhy',
}

const stampList = (stamps: readonly ToldStamp[], say: Say): HTMLElement[] => [
  el('h3', {}, say('chkStampSays')),
  el(
    'ul',
    { class: 'stamps' },
    ...stamps.map((stamp) =>
      el('li', { 'data-stamp': String(stamp.size), 'data-is': stamp.is }, ...stampLines(stamp, say)),
    ),
  ),
]

const stampLines = ({ is, size, at, authority, rootedIn, upTo }: ToldStamp, say: Say): HTMLElement[] => {
  if (is === 'fails') return [el('strong', {}, `✗ ${say('chkStampFails', { size })}`)]
  if (is === 'not-checked' || at === undefined || authority === undefined || upTo === undefined)
    return [el('strong', {}, `? ${say('chkStampNotRead', { size })}`)]
  const when = clock(toUtcTime(at))
  return [
    el('strong', {}, `✓ ${say('chkStampIs', { authority: oneLine(authority), at: when, upTo })}`),
    el('p', { class: 'small' }, say(rootedIn === 'given' ? 'chkStampGiven' : 'chkStampToken')),
  ]
}

const countOf = (group: Group, { checked, stamps }: Verdict): number => {
  const counts: Readonly<Partial<Record<Group, number>>> = {
    files: checked.files,
    thread: checked.leaves,
    entries: checked.entries,
    authors: checked.authors,
    company: checked.quoted,
    seen: checked.earlier,
    photos: checked.photos,
    stamps: stamps.length,
  }
  return counts[group] ?? 0
}

/** `2026-04-21 07:33:00 −05:00`: day, clock and offset, and nothing of it left out. */
const clock = (time: string): string =>
  time
    .replace('T', ' ')
    .replace(/Z$/, ' UTC')
    .replace(/([+-])(\d\d:\d\d)$/, ' $1$2')

const ENTRY_STATES: Readonly<Record<ToldEntry['is'], { mark: string; key: CheckKey }>> = {
  holds: { mark: '✓', key: 'chkStateHolds' },
  fails: { mark: '✗', key: 'chkStateFails' },
  withheld: { mark: '–', key: 'chkWithheld' },
  unread: { mark: '?', key: 'chkUnread' },
  unplaced: { mark: '?', key: 'chkUnplaced' },
}

const entryList = (verdict: Verdict, say: Say, language: Language): HTMLElement[] => [
  el('h3', {}, say('chkByEntry')),
  el('p', { class: 'small' }, say('chkByEntryWhy')),
  el(
    'ol',
    { class: 'entries' },
    ...verdict.entries.map((entry) => {
      const { mark, key } = ENTRY_STATES[entry.is]
      const kind =
        entry.kind !== undefined && isKind(entry.kind) ? ENTRY_WORDS[language].kinds[entry.kind] : ''
      const times = [
        entry.occurredAt === undefined ? '' : say('chkHappened', { at: clock(entry.occurredAt) }),
        entry.receivedAt === undefined ? '' : say('chkReceived', { at: clock(toUtcTime(entry.receivedAt)) }),
      ]
      return el(
        'li',
        { class: entry.is, 'data-count': String(entry.count), 'data-is': entry.is },
        el('span', { class: 'mark' }, `${mark} ${say(key)}`),
        el(
          'span',
          {},
          el('strong', {}, `${say('chkEntry', { count: entry.count })}${kind && ` · ${kind}`}`),
          ...times.filter((text) => text !== '').map((text) => el('span', { class: 'small time' }, text)),
        ),
      )
    }),
  ),
]
