import { createSignal, For, Show } from 'solid-js'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showTime } from '../state/show.ts'
import { Answer } from './Answer.tsx'
import type { StampKind } from './forms/stamp-kinds.ts'

/** The chute stopped and ran again, as often as it did. Which of the two comes next is the one that is offered. */
export const PauseRow = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const load = () => job.load(props.load)
  const stops = () =>
    job.standing(['discharge.paused', 'discharge.resumed'], props.load).map((line) => line.hash)
  const running = () => (load()?.started.length ?? 0) > 0 && (load()?.ended.length ?? 0) === 0
  const stopped = () => (load()?.paused.length ?? 0) > (load()?.resumed.length ?? 0)
  const next = (): StampKind => (stopped() ? 'discharge.resumed' : 'discharge.paused')
  const tap = async () => {
    if (busy()) return
    setBusy(true)
    await job.tap(next(), { load: props.load }).finally(() => setBusy(false))
  }
  return (
    <>
      <For each={stops()}>
        {(hash) => {
          const value = () => {
            const line = job.line(hash)
            return line ? `${kindWord(t, line.kind)} ${showTime(line.entry.occurredAt, job.localNow())}` : ''
          }
          return <Answer hash={hash} value={value()} />
        }}
      </For>
      <Show when={running() || stopped()}>
        <div class="stamp-open lesser">
          <button type="button" disabled={busy()} onClick={() => void tap()}>
            {busy() ? t('keeping') : t(stopped() ? 'resume' : 'pause')}
          </button>
          <button
            type="button"
            class="second"
            aria-label={`${kindWord(t, next())}: ${t('otherTime')}`}
            onClick={() => job.setOver({ is: 'new', kind: next(), load: props.load })}
          >
            {t('otherTime')}
          </button>
        </div>
      </Show>
    </>
  )
}
