import { createSignal, Show } from 'solid-js'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { WhenField } from '../WhenField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'

/** Facts in own words. Whose words they are is said in them. */
export const RemarkForm = (props: FormProps<'remark.made'> & { load?: string | undefined }) => {
  const { t, world, language } = usePhone()
  const job = useJob()
  const before = props.initial?.body.remark
  const kept = props.initial?.occurredAt
  const [text, setText] = createSignal(before?.text ?? '')
  const [when, setWhen] = createSignal<When>(kept ? { is: 'kept' } : { is: 'now' })
  const [tried, setTried] = createSignal(false)
  const ready = (): Draft<'remark.made'> | undefined => {
    const tidy = tidyText(text())
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    if (tidy === '' || !occurredAt) return undefined
    const remark = { lang: before?.lang ?? language(), text: tidy }
    return { body: { remark, ...(props.load ? { load: props.load } : {}) }, occurredAt, source: 'tap' }
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)}>
      <label class="field">
        <span class="field-label">{t('remarkLabel')}</span>
        <textarea rows={4} maxLength={2000} value={text()} onInput={(e) => setText(e.currentTarget.value)} />
        <Show when={tried() && tidyText(text()) === ''}>
          <span class="field-wrong">⚠ {t('stillOpen')}</span>
        </Show>
      </label>
      <p class="small">{t('remarkHelp')}</p>
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}

/** Keyboards and clipboards bring tabs and returns; entries hold no control character but the line's end. */
const tidyText = (text: string): string =>
  text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll('\t', ' ')
    .replaceAll(/[^\P{Cc}\n]/gu, '')
    .trim()
