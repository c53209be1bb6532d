import { createSignal, For } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'
import { SaveButton } from './SaveButton.tsx'
import { TextField } from './TextField.tsx'

const REASONS: readonly LabelKey[] = ['whyMistap', 'whyMistyped', 'whyMisread', 'whyWrongLoad']

/**
 * Why something is corrected or taken back. A touch on a usual reason is the last touch: it logs. Own words have a button
 * of their own.
 */
export const WhyField = (props: {
  legend: string
  /** The button that logs with own words. */
  ownWords: string
  onWhy: (why: string) => Promise<unknown>
}) => {
  const { t } = usePhone()
  const [text, setText] = createSignal('')
  const [open, setOpen] = createSignal(false)
  const own = async () => {
    const why = text().trim()
    setOpen(why === '')
    if (why !== '') await props.onWhy(why)
  }
  return (
    <>
      <fieldset class="why foot">
        <legend>{props.legend}</legend>
        <div class="wrap two">
          <For each={REASONS}>
            {(key) => <SaveButton onSave={() => props.onWhy(t(key))} label={t(key)} />}
          </For>
        </div>
      </fieldset>
      <div class="why own">
        <TextField
          label={t('whyOwnWords')}
          value={text()}
          most={500}
          onInput={setText}
          wrong={open() ? t('stillOpen') : undefined}
        />
        <SaveButton second onSave={own} label={props.ownWords} />
      </div>
    </>
  )
}
