import { createSignal, For, onCleanup, Show } from 'solid-js'
import { toLocalTime } from '../../../api/domain/time.ts'
import { hush, speak, wakeVoices } from '../../device/speech.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { readOut, spoken } from '../../state/pour/read-out.ts'
import { SaveButton } from '../SaveButton.tsx'
import { Sheet } from '../Sheet.tsx'

/** A load in large type for the ten seconds before its ticket is signed. It is spoken only where somebody asks for it. */
export const ReadOutSheet = (props: { load: string }) => {
  const { t, now, who, language } = usePhone()
  const job = useJob()
  const [mute, setMute] = createSignal(false)
  wakeVoices()
  onCleanup(hush)
  const title = () => t('readOutOf', { number: job.load(props.load)?.ordinal ?? '' })
  const out = () => {
    const [load, figures] = [job.load(props.load), job.loadFigures(props.load)]
    if (!load || !figures) return undefined
    const here = toLocalTime(now(), job.zone())
    return readOut(t, { load, figures, job: job.view(), now: here, names: job.names(t) })
  }
  const say = () => {
    const read = out()
    if (!read) return
    const labels = { against: t('doesNotAgree'), missing: t('missing') }
    setMute(!speak(spoken(title(), read, labels), language()))
  }
  const form = () => job.setOver({ is: 'new', kind: 'ticket.signed', load: props.load })
  /** Who holds the phone signs. On a shared phone that nobody was picked on, the form asks who it was. */
  const signed = async () => {
    const person = who.person()
    if (person === undefined) return form()
    const body = { load: props.load, who: { person }, exception: { is: 'none' } } as const
    if (await job.tap('ticket.signed', body)) job.setOver(undefined)
  }
  return (
    <Sheet title={title()} onClose={() => job.setOver(undefined)}>
      <Show when={out()}>
        {(read) => (
          <div class="read-out">
            <Show when={read().against.length > 0} fallback={<p class="sum">✓ {t('nothingAgainst')}</p>}>
              <div class="against-all">
                <h3>⚠ {t('doesNotAgree')}</h3>
                <ul>
                  <For each={read().against}>{(text) => <li>{text}</li>}</For>
                </ul>
              </div>
            </Show>
            <dl>
              <For each={read().facts}>
                {({ label, values }) => (
                  <div>
                    <dt>{label}</dt>
                    <For each={values}>{(value) => <dd>{value}</dd>}</For>
                  </div>
                )}
              </For>
            </dl>
            <Show when={read().missing.length > 0}>
              <p class="missing">
                <strong>{t('missing')}</strong> {read().missing.join(', ')}
              </p>
            </Show>
          </div>
        )}
      </Show>
      <Show when={mute()}>
        <p role="status">{t('noVoice')}</p>
      </Show>
      <div class="form-end foot">
        <SaveButton onSave={signed} label={t('signedNoException')} />
        <button type="button" onClick={form}>
          {t('signedWithException')}
        </button>
        <button type="button" onClick={say}>
          {t('speakIt')}
        </button>
        <button type="button" onClick={hush}>
          {t('stopSpeaking')}
        </button>
      </div>
    </Sheet>
  )
}
