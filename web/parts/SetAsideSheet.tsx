import { createSignal, For, Match, Show, Switch } from 'solid-js'
import { toLocalTime } from '../../api/domain/time.ts'
import { deviceZone } from '../device/clock.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'
import { readSetAside, type SetAsideLine } from '../state/set-aside.ts'
import { kindWord, showValue } from '../state/show.ts'
import { SaveButton } from './SaveButton.tsx'
import { Sheet } from './Sheet.tsx'

/** Entries that one decision names, so that it stays below the size that an entry may have. */
const MOST_DECIDED = 100

/** What a withdrawn phone sent, in words, and an owner's decision on it. Nothing is chosen for anybody. */
export const SetAsideSheet = (props: { device: string; onClose: () => void }) => {
  const { t, world, jobs, identity, log, localNow } = usePhone()
  const list = createLater(
    () => props.device,
    (device) => readSetAside(world, device),
  )
  const [chosen, setChosen] = createSignal<ReadonlySet<string>>(new Set())
  const [tried, setTried] = createSignal(false)
  const problem = () => {
    const now = list.value()
    return now && 'problem' in now ? now.problem : undefined
  }
  /** By this phone's own log where it knows more: a decision just made. */
  const open = (): readonly SetAsideLine[] => {
    const now = list.value()
    if (!now || 'problem' in now) return []
    return now.lines
      .map((line) => ({ ...line, is: jobs.quarantine().get(line.hash)?.is ?? line.is }))
      .filter((line) => line.is === 'waiting' || line.is === 'declined')
  }
  const picked = () => open().filter((line) => chosen().has(line.hash))
  const toggle = (hash: string) => {
    const next = new Set(chosen())
    if (!next.delete(hash)) next.add(hash)
    setChosen(next)
  }
  const decide = async (verdict: 'admitted' | 'declined') => {
    const is = identity()
    const hashes = picked().map((line) => line.hash)
    if (!is || hashes.length === 0) {
      setTried(true)
      return
    }
    for (let i = 0; i < hashes.length; i += MOST_DECIDED) {
      const body = { device: props.device, entries: hashes.slice(i, i + MOST_DECIDED), verdict }
      const occurredAt = localNow(is.zone)
      if (!(await log({ job: is.company, kind: 'push.decided', body, occurredAt, source: 'tap' }))) return
    }
    props.onClose()
  }
  return (
    <Sheet title={t('setAsideTitle')} onClose={props.onClose}>
      <p>{t('setAsideHelp')}</p>
      <Switch fallback={<p role="status">{t('waiting')}</p>}>
        <Match when={problem()}>{(says) => <p role="alert">⚠ {t(says(), { at: '' })}</p>}</Match>
        <Match when={list.value() && open().length === 0}>
          <p>{t('setAsideNone')}</p>
        </Match>
        <Match when={list.value()}>
          <div class="wrap">
            <button type="button" onClick={() => setChosen(new Set(open().map((line) => line.hash)))}>
              {t('chooseAll')}
            </button>
          </div>
          <For each={open().map((line) => line.hash)}>
            {(hash) => (
              <Show when={open().find((line) => line.hash === hash)}>
                {(line) => <Line line={line()} chosen={chosen().has(hash)} onToggle={() => toggle(hash)} />}
              </Show>
            )}
          </For>
          <Show when={tried() && picked().length === 0}>
            <p class="field-wrong">⚠ {t('chosenNone')}</p>
          </Show>
          <div class="form-end">
            <SaveButton
              onSave={() => decide('admitted')}
              label={t('admitChosen', { count: picked().length })}
            />
            <SaveButton
              second
              onSave={() => decide('declined')}
              label={t('declineChosen', { count: picked().length })}
            />
          </div>
        </Match>
      </Switch>
    </Sheet>
  )
}

const Line = (props: { line: SetAsideLine; chosen: boolean; onToggle: () => void }) => {
  const { t, jobs, identity } = usePhone()
  const entry = () => (props.line.says.is === 'entry' ? props.line.says.entry : undefined)
  const jobName = (job: string) => jobs.view(job).name[0]?.value ?? ''
  const by = (person: string) => jobs.nameOf(person) ?? t('somebody')
  // By the company's clock, as the entries' own times mostly are.
  const received = () =>
    toLocalTime(props.line.receivedAt, identity()?.zone ?? deviceZone())
      .slice(0, 16)
      .replace('T', ' ')
  return (
    <label class="set-aside-line">
      <input type="checkbox" checked={props.chosen} onChange={props.onToggle} />
      <span>
        <Show
          when={entry()}
          fallback={t(props.line.says.is === 'newer' ? 'setAsideNewer' : 'setAsideUnreadable')}
        >
          {(is) => (
            <>
              <strong>{kindWord(t, is().kind)}</strong> {showValue(t, is())}
              <br />
              {jobName(is().job)} · {is().occurredAt.slice(0, 16).replace('T', ' ')}
              {' · '}
              {(() => {
                const maker = is().by
                return maker.known === 'server' ? '' : by(maker.person)
              })()}
            </>
          )}
        </Show>
        <br />
        {t('received')} {received()}
        <Show when={props.line.is === 'declined'}> · {t('declinedBefore')}</Show>
      </span>
    </label>
  )
}
