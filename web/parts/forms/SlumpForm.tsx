import { createSignal, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { showUnit } from '../../state/show.ts'
import { readSlumpText, type SlumpPick, writeSlumpText } from '../../state/slump-text.ts'
import { Choice } from '../Choice.tsx'
import { SlumpRuler } from '../pads/SlumpRuler.tsx'
import { WhenField } from '../WhenField.tsx'
import { type Ending, FormFrame, type FormProps } from './FormFrame.tsx'
import { createMore, MoreFields } from './shape/more.tsx'

type How = NonNullable<BodyOf<'slump.measured'>['how']> | 'not-taken'

/** A slump in inches and quarters, and whether a cone said so or an eye: two different things, and each logs. */
export const SlumpForm = (props: FormProps<'slump.measured'> & { load: string }) => {
  const { t, world } = usePhone()
  const job = useJob()
  const before = props.initial?.body
  const kept = props.initial?.occurredAt
  const start: SlumpPick = before?.slump.is === 'given' ? readSlumpText(before.slump.text) : {}
  const [pick, setPick] = createSignal<SlumpPick>(start)
  const [how, setHow] = createSignal<How | undefined>(
    before?.slump.is === 'not-taken' ? 'not-taken' : before?.how,
  )
  const [when, setWhen] = createSignal<When>(kept ? { is: 'kept' } : { is: 'now' })
  const [tried, setTried] = createSignal(false)
  const more = createMore('slump.measured', ['slump', 'how'], before)
  const text = () => writeSlumpText(pick())
  const body = (by: How | undefined): BodyOf<'slump.measured'> | undefined => {
    const inches = text()
    const rest = more.members()
    if (!rest) return undefined
    if (by === 'not-taken') return { ...rest, load: props.load, slump: { is: 'not-taken' } }
    return by && inches
      ? { ...rest, load: props.load, slump: { is: 'given', text: inches, unit: 'in' }, how: by }
      : undefined
  }
  const draft = (by: How | undefined): Draft<'slump.measured'> | undefined => {
    const given = body(by)
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    return given && occurredAt ? { body: given, occurredAt, source: 'tap' } : undefined
  }
  const endings = (): readonly Ending<'slump.measured'>[] => [
    { label: t('logCone'), draft: () => draft('cone') },
    { label: t('logByEye'), draft: () => draft('by-eye') },
    { label: t('logNotTaken'), draft: () => draft('not-taken'), second: true },
  ]
  return (
    <FormFrame form={props} draft={() => draft(how())} endings={endings()} onOpen={() => setTried(true)}>
      <Show when={how() !== 'not-taken'}>
        <SlumpRuler pick={pick()} onPick={setPick} />
        <output class="figure" aria-label={t('slump')}>
          {text() ?? '–'} <small>{showUnit(t, 'in')}</small>
        </output>
        <Show when={tried() && !text()}>
          <p class="field-wrong">⚠ {t('stillOpen')}</p>
        </Show>
      </Show>
      <Show when={before}>
        <Choice
          legend={t('slumpHow')}
          options={[
            { value: 'cone', label: t('byCone') },
            { value: 'by-eye', label: t('byEye') },
            { value: 'not-taken', label: t('notTaken') },
          ]}
          value={how()}
          onPick={setHow}
        />
      </Show>
      <MoreFields more={more} tried={tried()} />
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}
