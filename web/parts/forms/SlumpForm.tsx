import { createSignal, For, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { showSlump, showUnit } from '../../state/show.ts'
import { readSlumpText, type SlumpPick, writeSlumpText } from '../../state/slump-text.ts'
import { Choice } from '../Choice.tsx'
import { WhenField } from '../WhenField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import { createMore, MoreFields } from './shape/more.tsx'

const INCHES = Array.from({ length: 11 }, (_, i) => i)
const QUARTERS = ['0', '1/4', '1/2', '3/4'] as const

/** A slump in inches and quarters, and whether a cone said so or an eye: two different things. */
export const SlumpForm = (props: FormProps<'slump.measured'> & { load: string }) => {
  const { t, world } = usePhone()
  const job = useJob()
  const before = props.initial?.body
  const kept = props.initial?.occurredAt
  const start: SlumpPick = before?.slump.is === 'given' ? readSlumpText(before.slump.text) : {}
  const [pick, setPick] = createSignal<SlumpPick>(start)
  const [how, setHow] = createSignal<BodyOf<'slump.measured'>['how'] | 'not-taken' | undefined>(
    before?.slump.is === 'not-taken' ? 'not-taken' : before?.how,
  )
  const [when, setWhen] = createSignal<When>(kept ? { is: 'kept' } : { is: 'now' })
  const [tried, setTried] = createSignal(false)
  const [saved, setSaved] = createSignal<string>()
  const more = createMore('slump.measured', ['slump', 'how'], before)
  const another = (draft: Draft<'slump.measured'>) => {
    setSaved(showSlump(t, draft.body))
    setPick({})
    setHow(undefined)
    setWhen({ is: 'now' })
    setTried(false)
    more.again()
  }
  const text = () => writeSlumpText(pick())
  const body = (): BodyOf<'slump.measured'> | undefined => {
    const by = how()
    const rest = more.members()
    if (!rest) return undefined
    if (by === 'not-taken') return { ...rest, load: props.load, slump: { is: 'not-taken' } }
    const inches = text()
    return by && inches
      ? { ...rest, load: props.load, slump: { is: 'given', text: inches, unit: 'in' }, how: by }
      : undefined
  }
  const ready = (): Draft<'slump.measured'> | undefined => {
    const given = body()
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    return given && occurredAt ? { body: given, occurredAt, source: 'tap' } : undefined
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)} onAnother={another}>
      <Show when={saved()}>
        {(value) => (
          <p class="sum" role="status">
            ✓ {t('savedThis', { value: value() })}
          </p>
        )}
      </Show>
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
      <Show when={how() !== 'not-taken'}>
        <output class="figure big">
          {text() ?? '–'} <small>{showUnit(t, 'in')}</small>
        </output>
        <Show when={tried() && !text()}>
          <p class="field-wrong">⚠ {t('stillOpen')}</p>
        </Show>
        <fieldset class="pad" aria-label={t('wholeInches')}>
          <For each={INCHES}>
            {(inch) => (
              <button
                type="button"
                aria-pressed={pick().whole === inch}
                onClick={() => setPick({ ...pick(), whole: inch })}
              >
                {inch}
              </button>
            )}
          </For>
        </fieldset>
        <fieldset class="pad quarters" aria-label={t('quarters')}>
          <For each={QUARTERS}>
            {(quarter) => (
              <button
                type="button"
                aria-pressed={(pick().quarter ?? '0') === quarter && pick().whole !== undefined}
                onClick={() => setPick({ ...pick(), quarter })}
              >
                {quarter === '0' ? t('noQuarter') : `+ ${quarter}`}
              </button>
            )}
          </For>
        </fieldset>
      </Show>
      <MoreFields more={more} tried={tried()} />
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}
