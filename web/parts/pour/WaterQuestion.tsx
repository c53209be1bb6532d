import { createSignal, Show } from 'solid-js'
import type { BodyOf } from '../../../api/domain/entry/registry.ts'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { type WaterAsk, waterAsk } from '../../state/pour/water-ask.ts'

const WORDS: Readonly<Record<Exclude<WaterAsk['why'], 'first'>, LabelKey>> = {
  paused: 'waterPaused',
  'low-slump': 'waterLowSlump',
  emptied: 'waterLater',
}

const asked = (ask: WaterAsk): LabelKey => {
  if (ask.why !== 'first') return WORDS[ask.why]
  return ask.stage === 'before-discharge' ? 'waterBefore' : 'waterSoFar'
}

/** Water, asked when it is due. None is one touch, and is a fact; no touch at all is not. */
export const WaterQuestion = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  /** It may have come up under the knuckle that just tapped. */
  const waits = () => busy() || job.isSettling()
  const ask = () => {
    const load = job.load(props.load)
    return load && waterAsk(load, job.loadFigures(props.load))
  }
  const tap = async (is: 'none' | 'not-sure') => {
    const due = ask()
    if (waits() || !due) return
    setBusy(true)
    const body: BodyOf<'water.added'> = {
      load: props.load,
      amount: { is },
      ...(due.stage ? { stage: due.stage } : {}),
    }
    await job.tap('water.added', body).finally(() => setBusy(false))
  }
  return (
    <Show when={ask()}>
      {(due) => (
        <fieldset class="dock-water" data-why={due().why}>
          <legend>{t(asked(due()))}</legend>
          <button type="button" disabled={waits()} onClick={() => void tap('none')}>
            {t('waterNone')}
          </button>
          <button
            type="button"
            disabled={waits()}
            onClick={() => job.setOver({ is: 'quick', ask: 'water', load: props.load })}
          >
            {t('gallons')}
          </button>
          <button type="button" disabled={waits()} onClick={() => void tap('not-sure')}>
            {t('notSure')}
          </button>
        </fieldset>
      )}
    </Show>
  )
}
