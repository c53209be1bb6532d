import { For } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'
import { TextField } from './TextField.tsx'

const REASONS: readonly LabelKey[] = ['whyMistap', 'whyMistyped', 'whyMisread', 'whyWrongLoad']

/** Why something is corrected or taken back: a touch for the usual reasons, or own words. */
export const WhyField = (props: { value: string; onInput: (text: string) => void; open: boolean }) => {
  const { t } = usePhone()
  return (
    <div class="why">
      <span class="field-label">{t('why')}</span>
      <div class="wrap">
        <For each={REASONS}>
          {(key) => (
            <button
              type="button"
              class="toggle"
              aria-pressed={props.value === t(key)}
              onClick={() => props.onInput(t(key))}
            >
              {t(key)}
            </button>
          )}
        </For>
      </div>
      <TextField
        label={t('whyOwnWords')}
        value={props.value}
        most={500}
        onInput={props.onInput}
        wrong={props.open ? t('stillOpen') : undefined}
      />
    </div>
  )
}
