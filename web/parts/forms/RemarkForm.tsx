import { createSignal, Show } from 'solid-js'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { REMARK_MOST, remarkOver, tidyRemark } from '../../state/remark-text.ts'
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
    const tidy = tidyRemark(text())
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    if (tidy === '' || remarkOver(tidy) > 0 || !occurredAt) return undefined
    const remark = { lang: before?.lang ?? language(), text: tidy }
    return { body: { remark, ...(props.load ? { load: props.load } : {}) }, occurredAt, source: 'tap' }
  }
  const over = () => remarkOver(text())
  const tooLong = () => (over() > 0 ? t('remarkTooLong', { over: over(), most: REMARK_MOST }) : undefined)
  return (
    <FormFrame form={props} draft={ready} says={tooLong()} onOpen={() => setTried(true)}>
      <label class="field">
        <span class="field-label">{t('remarkLabel')}</span>
        <textarea rows={4} value={text()} onInput={(e) => setText(e.currentTarget.value)} />
        <Show when={tried() && tidyRemark(text()) === ''}>
          <span class="field-wrong">⚠ {t('stillOpen')}</span>
        </Show>
      </label>
      <p classList={{ small: over() === 0, 'field-wrong': over() > 0 }}>
        {over() > 0 ? '⚠ ' : ''}
        {tidyRemark(text()).length} / {REMARK_MOST}
      </p>
      <p class="small">{t('remarkHelp')}</p>
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}
