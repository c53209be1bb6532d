import { createSignal, For, Show } from 'solid-js'
import type { Said, WaterAddition } from '../../api/domain/job/view.ts'
import { bodyText } from '../../api/domain/words/body-lines.ts'
import { waterLines } from '../state/finding-text.ts'
import { type JobHere, useJob } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { showTime, showWater } from '../state/show.ts'
import { waterSumText } from '../state/water-text.ts'
import { Answer } from './Answer.tsx'

/** "Water?": none in one tap, so much, or not sure. Nothing recorded is said as such. */
export const WaterBlock = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const water = () => job.load(props.load)?.water ?? []
  const lines = () => {
    const figures = job.loadFigures(props.load)
    return figures ? waterLines(t, figures) : []
  }
  const figure = () => job.loadFigures(props.load)?.water
  const tap = async (is: 'none' | 'not-sure') => {
    if (busy()) return
    setBusy(true)
    await job.tap('water.added', { load: props.load, amount: { is } }).finally(() => setBusy(false))
  }
  return (
    <fieldset class="block" aria-label={t('water')}>
      <h4>{t('waterQuestion')}</h4>
      <For each={water().map((s) => s.hash)}>
        {(hash) => {
          const said = () => water().find((s) => s.hash === hash)
          const value = () => {
            const one = said()
            return one ? waterText(t, one, job) : ''
          }
          return <Answer hash={hash} value={value()} />
        }}
      </For>
      <Show when={figure()}>{(f) => <p class="sum">{waterSumText(t, f())}</p>}</Show>
      <For each={water().length > 0 ? lines() : []}>{(line) => <p class="against">{line}</p>}</For>
      <div class="wrap">
        <Show when={water().length === 0}>
          <button type="button" class="main" disabled={busy()} onClick={() => void tap('none')}>
            {t('waterNone')}
          </button>
        </Show>
        <button
          type="button"
          onClick={() => job.setOver({ is: 'new', kind: 'water.added', load: props.load })}
        >
          {t(water().length === 0 ? 'gallons' : 'moreGallons')}
        </button>
        <Show when={water().length === 0}>
          <button type="button" disabled={busy()} onClick={() => void tap('not-sure')}>
            {t('notSure')}
          </button>
        </Show>
      </div>
    </fieldset>
  )
}

/** The amount and when; then what else was said of it. */
const waterText = (t: Words, { value, at }: Said<WaterAddition>, job: JobHere): string => {
  const { amount, ...rest } = value
  const more = bodyText(rest, t.entry(), job.names(t))
  const first = `${showWater(t, amount)} · ${showTime(at, job.localNow())}`
  return more === '' ? first : `${first}\n${more}`
}
