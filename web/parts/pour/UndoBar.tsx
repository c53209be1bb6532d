import { createSignal, Show } from 'solid-js'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { kindWord, showValue } from '../../state/show.ts'

/** What was just logged, and one touch that takes it back: a further entry, since nothing is deleted. */
export const UndoBar = () => {
  const { t, language } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const line = () => {
    const just = job.just()
    return just && job.line(just.hash)
  }
  const said = () => {
    const entry = line()?.entry
    return entry ? `${kindWord(t, entry.kind)} ${showValue(t, entry, job.names(t))}`.split('\n')[0]! : ''
  }
  const undo = async () => {
    if (busy()) return
    setBusy(true)
    await job.undo({ lang: language(), text: t('whyUndone') }).finally(() => setBusy(false))
  }
  return (
    <Show when={line()}>
      <div class="undo">
        <span role="status">✓ {t('undone', { value: said() })}</span>
        <button type="button" disabled={busy()} onClick={() => void undo()}>
          <span aria-hidden="true">↶</span> {t('undo')}
        </button>
      </div>
    </Show>
  )
}
