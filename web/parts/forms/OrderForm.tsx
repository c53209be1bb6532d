import { createSignal } from 'solid-js'
import type { Draft } from '../../state/draft.ts'
import { EXAMPLES, markWords, textMark } from '../../state/field-mark.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { readQuantity } from '../../state/quantity-text.ts'
import { showUnit } from '../../state/show.ts'
import { unusualText } from '../../state/usual.ts'
import { ReadAs } from '../ReadAs.tsx'
import { TextField } from '../TextField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'

/** Yards asked of the supplier. A further order is logged as a further one: they add up. */
export const OrderForm = (props: FormProps<'concrete.ordered'>) => {
  const { t } = usePhone()
  const job = useJob()
  const before = props.initial?.body.yards
  const unit = before?.unit ?? 'yd3'
  const shownUnit = showUnit(t, unit)
  const [text, setText] = createSignal(before?.text ?? '')
  const [tried, setTried] = createSignal(false)
  const unusual = () => unusualText(t, ['concrete.ordered', 'yards'], text(), unit)
  const ready = (): Draft<'concrete.ordered'> | undefined => {
    const read = readQuantity(text())
    if (read === undefined) return undefined
    const occurredAt = props.initial?.occurredAt ?? job.localNow()
    return { body: { yards: { is: 'given', text: read, unit } }, occurredAt, source: 'tap' }
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)} asks={unusual() && t('unusualAsk')}>
      <p>{t('orderHelp')}</p>
      <TextField
        label={t('yardsOrdered')}
        unit={shownUnit}
        keys="decimal"
        most={15}
        value={text()}
        onInput={setText}
        wrong={tried() && !ready() ? markWords(t, textMark(text()), EXAMPLES.ordered) : undefined}
      />
      <ReadAs text={text()} unit={shownUnit} unusual={unusual()} />
    </FormFrame>
  )
}
