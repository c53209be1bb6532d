import { createSignal, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { showUnit } from '../../state/show.ts'
import { FormFrame } from '../forms/FormFrame.tsx'
import { createMore, MoreFields } from '../forms/shape/more.tsx'
import { WhenField } from '../WhenField.tsx'
import { keysFrom, PadKeys } from './PadKeys.tsx'
import { fractionText, isZeroText, QUARTERS } from './pad-text.ts'

type Body = BodyOf<'concrete.left'>

/** Yards of a load that were not placed, by quarters: by eye or measured, and each logs. */
export const LeftPad = (props: {
  load: string
  onSave: (draft: Draft<'concrete.left'>) => Promise<unknown>
}) => {
  const { t, world } = usePhone()
  const job = useJob()
  const [whole, setWhole] = createSignal<string>()
  const [quarter, setQuarter] = createSignal<string>()
  const [when, setWhen] = createSignal<When>({ is: 'now' })
  const [tried, setTried] = createSignal(false)
  const more = createMore('concrete.left', ['yards', 'how'], undefined)
  const text = () => fractionText(whole(), quarter())
  const yards = (): Body['yards'] | undefined => {
    const left = text()
    if (left === undefined) return undefined
    return isZeroText(left) ? { is: 'none' } : { is: 'given', text: left, unit: 'yd3' }
  }
  const draft = (left: Body['yards'] | undefined, how: Body['how']): Draft<'concrete.left'> | undefined => {
    const rest = more.members()
    const occurredAt = readWhen(when(), world.now(), job.zone())
    return left && rest && occurredAt
      ? { body: { ...rest, load: props.load, yards: left, how } as Body, occurredAt, source: 'tap' }
      : undefined
  }
  return (
    <FormFrame
      form={{ onSave: props.onSave }}
      draft={() => draft(yards(), 'by-eye')}
      endings={[
        { label: t('logByEye'), draft: () => draft(yards(), 'by-eye') },
        { label: t('logMeasured'), draft: () => draft(yards(), 'measured') },
        { label: t('notSure'), draft: () => draft({ is: 'not-sure' }, 'by-eye'), second: true },
      ]}
      onOpen={() => setTried(true)}
    >
      <output class="figure big">
        {text() ?? '–'} <small>{showUnit(t, 'yd3')}</small>
      </output>
      <Show when={tried() && text() === undefined}>
        <p class="field-wrong">⚠ {t('stillOpen')}</p>
      </Show>
      <PadKeys legend={t('wholeYards')} keys={keysFrom(0, 11)} picked={whole()} onPick={setWhole} wide={5} />
      <PadKeys legend={t('quarterYards')} keys={QUARTERS} picked={quarter()} onPick={setQuarter} wide={5} />
      <MoreFields more={more} tried={tried()} />
      <WhenField when={when()} onChange={setWhen} tried={tried()} />
    </FormFrame>
  )
}
