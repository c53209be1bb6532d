import { createMemo, For, Show } from 'solid-js'
import type { Kind } from '../../api/domain/entry/registry.ts'
import type { HistoryLine, Said } from '../../api/domain/job/view.ts'
import { useJob } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showTime, showValue } from '../state/show.ts'
import { Answer, Answers } from './Answer.tsx'

/** Questions with one answer: several that stand are a conflict. */
const SINGLE = new Set<Kind>([
  'customer.named',
  'site.addressed',
  'mix.ordered',
  'crew.ready',
  'concrete.left',
])
/** Of these it doesn't matter when they were said. */
const TIMELESS = new Set<Kind>([
  'customer.named',
  'site.addressed',
  'placement.planned',
  'mix.ordered',
  'concrete.ordered',
  'concrete.held',
  'editions.chosen',
  'strength.reported',
])

/** Everything that stands of some kinds of entries, of a load or of the whole job, and a button to log each. */
export const EntryBlock = (props: {
  title?: string
  kinds: readonly Kind[]
  load?: string
  /** Kinds that have a button here; all of them unless said otherwise. */
  offers?: readonly Kind[]
  /** Which of them belong here, where a kind is about several things. */
  only?: (line: HistoryLine) => boolean
  /** Leaves the whole block out while nothing of it is logged. */
  hidesEmpty?: boolean
  /** What an entry is against what was asked for, line by line. */
  notes?: (line: HistoryLine) => readonly string[]
}) => {
  const { t } = usePhone()
  const job = useJob()
  const lines = createMemo(() =>
    job.standing(props.kinds, props.load).filter((line) => props.only?.(line) ?? true),
  )
  const single = () => props.kinds.filter((kind) => SINGLE.has(kind))
  const hashes = () => lines().flatMap((line) => (SINGLE.has(line.kind) ? [] : [line.hash]))
  const textOf = (line: HistoryLine): string =>
    [lineText(t, line, job), ...(props.notes?.(line) ?? [])].join('\n')
  return (
    <Show when={!props.hidesEmpty || lines().length > 0}>
      <fieldset class="block" aria-label={props.title}>
        <Show when={props.title}>{(title) => <h4>{title()}</h4>}</Show>
        <For each={single()}>
          {(kind) => {
            const fact = createMemo(() =>
              lines()
                .filter((line) => line.kind === kind)
                .map(saidOf),
            )
            return (
              <Show when={fact().length > 0}>
                <Answers fact={fact()} show={(said) => textOf(said.value)} />
              </Show>
            )
          }}
        </For>
        <For each={hashes()}>
          {(hash) => {
            const value = () => {
              const line = job.line(hash)
              return line ? textOf(line) : ''
            }
            return <Answer hash={hash} value={value()} />
          }}
        </For>
        <KindButtons kinds={props.offers ?? props.kinds} {...(props.load ? { load: props.load } : {})} />
      </fieldset>
    </Show>
  )
}

/** A button for each kind that this person may log. */
export const KindButtons = (props: { kinds: readonly Kind[]; load?: string }) => {
  const { t, jobs } = usePhone()
  const job = useJob()
  const mine = () => props.kinds.filter(jobs.mayMake)
  return (
    <Show when={mine().length > 0}>
      <div class="wrap two">
        <For each={mine()}>
          {(kind) => (
            <button
              type="button"
              data-log={kind}
              onClick={() => job.setOver({ is: 'new', kind, ...(props.load ? { load: props.load } : {}) })}
            >
              + {kindWord(t, kind)}
            </button>
          )}
        </For>
      </div>
    </Show>
  )
}

const saidOf = (line: HistoryLine): Said<HistoryLine> => ({
  hash: line.hash,
  value: line,
  at: line.entry.occurredAt,
  late: line.late,
  ahead: false,
})

/** `Air content 5.4 % · 09:51`. */
const lineText = (t: Words, { entry, kind }: HistoryLine, job: ReturnType<typeof useJob>): string => {
  const value = showValue(t, entry, job.names(t))
  const time = showTime(entry.occurredAt, job.localNow())
  const said =
    value === '' || value === showTime(entry.occurredAt)
      ? kindWord(t, kind)
      : `${kindWord(t, kind)}: ${value}`
  return TIMELESS.has(kind) ? said : `${said} · ${time}`
}
