import { Show } from 'solid-js'
import { usePhone } from '../state/phone.ts'
import { readOtherwise } from '../state/quantity-text.ts'

/** Shows a quantity as it was read, where it was typed otherwise, and says if it is plainly unusual. */
export const ReadAs = (props: { text: string; unit: string; unusual?: string | undefined }) => {
  const { t } = usePhone()
  return (
    <>
      <Show when={readOtherwise(props.text)}>
        {(read) => <output class="echo">{t('readAs', { value: `${read()} ${props.unit}` })}</output>}
      </Show>
      <Show when={props.unusual}>{(says) => <p class="unusual">⚠ {says()}</p>}</Show>
    </>
  )
}
