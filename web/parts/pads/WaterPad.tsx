import { createSignal, For, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { stageOf } from '../../state/pour/stage.ts'
import { showUnit } from '../../state/show.ts'
import { Cautions } from '../Cautions.tsx'
import { Choice } from '../Choice.tsx'
import { FormFrame } from '../forms/FormFrame.tsx'
import { WhenField } from '../WhenField.tsx'
import { keysFrom, PadKeys } from './PadKeys.tsx'
import { fractionText, HALVES, isZeroText, QUARTERS, sumText } from './pad-text.ts'

type Body = BodyOf<'water.added'>
type Stage = Exclude<Body['stage'], undefined>

/** Gallons that went in. Once discharge had begun, what was still in the drum too: it is what that water went into. */
export const WaterPad = (props: {
  load: string
  onSave: (draft: Draft<'water.added'>) => Promise<unknown>
}) => {
  const { t, world, jobs } = usePhone()
  const job = useJob()
  const at = () => {
    const load = job.load(props.load)
    return load ? stageOf(load) : 'here'
  }
  const [tens, setTens] = createSignal<string>()
  const [ones, setOnes] = createSignal<string>()
  const [half, setHalf] = createSignal<string>()
  const [drum, setDrum] = createSignal<string>()
  const [quarter, setQuarter] = createSignal<string>()
  const [asked, setAsked] = createSignal<string>()
  const [said, setSaid] = createSignal<Stage>()
  const [when, setWhen] = createSignal<When>({ is: 'now' })
  const [tried, setTried] = createSignal(false)
  /** At the truck the question itself says when; afterwards somebody has to. */
  const isPlain = () => ['here', 'discharging', 'paused'].includes(at())
  const stage = (): Stage | undefined => {
    if (said() || !isPlain()) return said()
    return at() === 'here' ? 'before-discharge' : 'after-discharge-began'
  }
  const text = () => fractionText(sumText(tens(), ones()), half())
  const inDrum = (): Body['inDrum'] => {
    const yards = fractionText(drum(), quarter())
    return yards === undefined || stage() !== 'after-discharge-began'
      ? undefined
      : { yards: { is: 'given', text: yards, unit: 'yd3' }, how: 'by-eye' }
  }
  const draft = (amount: Body['amount'] | undefined): Draft<'water.added'> | undefined => {
    const occurredAt = readWhen(when(), world.now(), job.zone())
    if (!amount || !occurredAt) return undefined
    const body: Body = {
      load: props.load,
      amount,
      ...(stage() ? { stage: stage() } : {}),
      ...(inDrum() ? { inDrum: inDrum() } : {}),
      ...(asked() ? { asked: { person: asked()! } } : {}),
    }
    return { body, occurredAt, source: 'tap' }
  }
  const amount = (): Body['amount'] | undefined => {
    const gallons = text()
    if (gallons === undefined) return undefined
    return isZeroText(gallons) ? { is: 'none' } : { is: 'given', text: gallons, unit: 'gal' }
  }
  const people = () => [...jobs.members().people.values()].sort((a, b) => a.name.localeCompare(b.name))
  return (
    <FormFrame
      form={{ onSave: props.onSave }}
      draft={() => draft(amount())}
      endings={[
        { label: t('logIt'), draft: () => draft(amount()) },
        { label: t('waterNone'), draft: () => draft({ is: 'none' }), second: true },
        { label: t('notSure'), draft: () => draft({ is: 'not-sure' }), second: true },
      ]}
      onOpen={() => setTried(true)}
    >
      <output class="figure big">
        {text() ?? '–'} <small>{showUnit(t, 'gal')}</small>
      </output>
      <Show when={tried() && text() === undefined}>
        <p class="field-wrong">⚠ {t('stillOpen')}</p>
      </Show>
      <PadKeys legend={t('tens')} keys={keysFrom(10, 50, 10)} picked={tens()} onPick={setTens} wide={5} />
      <PadKeys legend={t('ones')} keys={keysFrom(0, 9)} picked={ones()} onPick={setOnes} wide={5} />
      <PadKeys legend={t('halves')} keys={HALVES} picked={half()} onPick={setHalf} wide={5} />
      <Show when={!isPlain()}>
        <Choice
          legend={t('whenWasIt')}
          options={(['before-discharge', 'after-discharge-began'] as const).map((value) => ({
            value,
            label: t.entry().codes[value],
          }))}
          value={said()}
          onPick={setSaid}
        />
      </Show>
      <Show when={stage() === 'after-discharge-began'}>
        <PadKeys legend={t('drumLeft')} keys={keysFrom(0, 11)} picked={drum()} onPick={setDrum} wide={5} />
        <PadKeys legend={t('quarterYards')} keys={QUARTERS} picked={quarter()} onPick={setQuarter} wide={5} />
      </Show>
      <fieldset class="choice">
        <legend>{t('askedBy')}</legend>
        <For each={people()}>
          {({ person, name }) => (
            <button
              type="button"
              class="toggle"
              translate="no"
              aria-pressed={asked() === person}
              onClick={() => setAsked(asked() === person ? undefined : person)}
            >
              {name}
            </button>
          )}
        </For>
      </fieldset>
      <WhenField when={when()} onChange={setWhen} tried={tried()} />
      <Cautions of={['cautionWaterAsked']} />
    </FormFrame>
  )
}
