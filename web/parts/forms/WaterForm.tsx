import { createSignal, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { EXAMPLES, markWords, textMark } from '../../state/field-mark.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { readQuantity } from '../../state/quantity-text.ts'
import { showUnit } from '../../state/show.ts'
import { unusualText } from '../../state/usual.ts'
import { Cautions } from '../Cautions.tsx'
import { Choice } from '../Choice.tsx'
import { ReadAs } from '../ReadAs.tsx'
import { TextField } from '../TextField.tsx'
import { WhenField } from '../WhenField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import { createMore, MoreFields } from './shape/more.tsx'

type Answer = BodyOf<'water.added'>['amount']['is']

/** Water put in on the site: gallons that went in, not what was asked for. */
export const WaterForm = (props: FormProps<'water.added'> & { load: string }) => {
  const { t, world } = usePhone()
  const job = useJob()
  const before = props.initial?.body.amount
  const kept = props.initial?.occurredAt
  const [is, setIs] = createSignal<Answer | undefined>(before?.is ?? 'given')
  const [text, setText] = createSignal(before?.is === 'given' ? before.text : '')
  const [when, setWhen] = createSignal<When>(kept ? { is: 'kept' } : { is: 'now' })
  const [tried, setTried] = createSignal(false)
  const unit = before?.is === 'given' ? before.unit : 'gal'
  const shownUnit = showUnit(t, unit)
  const more = createMore('water.added', ['amount'], props.initial?.body)
  const stage = () => {
    const answer = more.answers().stage
    return answer?.is === 'picked' ? answer.value : undefined
  }
  const amount = (): BodyOf<'water.added'>['amount'] | undefined => {
    const answer = is()
    if (answer === 'none' || answer === 'not-sure') return { is: answer }
    const read = readQuantity(text())
    return read !== undefined ? { is: 'given', text: read, unit } : undefined
  }
  const unusual = () =>
    is() === 'given' ? unusualText(t, ['water.added', 'amount'], text(), unit) : undefined
  const ready = (): Draft<'water.added'> | undefined => {
    const given = amount()
    const rest = more.members()
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    if (!given || !rest || !occurredAt) return undefined
    return { body: { ...rest, load: props.load, amount: given }, occurredAt, source: 'tap' }
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)} asks={unusual() && t('unusualAsk')}>
      <Choice
        legend={t('waterQuestion')}
        options={[
          { value: 'given', label: t('gallons') },
          { value: 'none', label: t('waterNone') },
          { value: 'not-sure', label: t('notSure') },
        ]}
        value={is()}
        onPick={setIs}
      />
      <Show when={is() === 'given'}>
        <TextField
          label={t('gallonsWentIn')}
          unit={shownUnit}
          keys="decimal"
          most={15}
          value={text()}
          onInput={setText}
          wrong={tried() && !amount() ? markWords(t, textMark(text()), EXAMPLES.gallons) : undefined}
        />
        <ReadAs text={text()} unit={shownUnit} unusual={unusual()} />
      </Show>
      <Show when={is() !== 'none'}>
        <MoreFields
          more={more}
          tried={tried()}
          // What was left in the drum is asked where it matters: once discharge had begun.
          hides={(name) => name === 'inDrum' && stage() !== 'after-discharge-began' && !more.answers().inDrum}
        />
      </Show>
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
      <Cautions of={['cautionWaterAsked']} />
    </FormFrame>
  )
}
