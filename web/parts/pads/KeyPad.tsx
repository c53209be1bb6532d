import { For, Show } from 'solid-js'
import { usePhone } from '../../state/phone.ts'
import { type KeyPadState, typeInto } from './key-pad.ts'

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9'] as const
const FRACTIONS = ['¼', '½', '¾'] as const

/** Keys for a knuckle, in the place of the phone's keyboard. They write at the end of the field. */
export const KeyPad = (props: { pad: KeyPadState }) => {
  const { t } = usePhone()
  const input = () => props.pad.field()?.input
  const isDecimal = () => props.pad.field()?.keys === 'decimal'
  const put = (key: string) => {
    const into = input()
    if (into) typeInto(into, (text) => text + key)
  }
  const back = () => {
    const into = input()
    if (into) typeInto(into, (text) => text.slice(0, -1))
  }
  /** The next field of the form, whatever it takes; after the last one the keys go down. */
  const next = () => {
    const from = input()
    const all = [
      ...(from?.closest('dialog')?.querySelectorAll<HTMLElement>('.sheet-body input[type=text]') ?? []),
    ]
    const to = all[all.indexOf(from!) + 1]
    if (to) to.focus()
    else props.pad.close()
  }
  const letters = () => {
    const into = input()
    props.pad.close()
    if (!into) return
    into.inputMode = 'text'
    // Asked for anew, the phone's keyboard comes up.
    into.blur()
    into.dataset.letters = ''
    into.focus()
  }
  const Pressed = (key: { label: string; name?: string; onPress: () => void; wide?: boolean }) => (
    <button
      type="button"
      classList={{ word: key.wide ?? false }}
      aria-label={key.name}
      // The field keeps the focus.
      onPointerDown={(event) => event.preventDefault()}
      onClick={key.onPress}
    >
      {key.label}
    </button>
  )
  return (
    <Show when={props.pad.field()}>
      <section class="keypad" classList={{ decimal: isDecimal() }} aria-label={t('padKeys')}>
        <div class="keypad-digits">
          <For each={DIGITS}>{(digit) => <Pressed label={digit} onPress={() => put(digit)} />}</For>
          <Show
            when={isDecimal()}
            fallback={<Pressed label="abc" name={t('padLetters')} onPress={letters} />}
          >
            <Pressed label="." onPress={() => put('.')} />
          </Show>
          <Pressed label="0" onPress={() => put('0')} />
          <Pressed label="⌫" name={t('padBack')} onPress={back} />
        </div>
        <div class="keypad-more">
          <Show when={isDecimal()}>
            <For each={FRACTIONS}>{(part) => <Pressed label={part} onPress={() => put(part)} />}</For>
          </Show>
          <Pressed wide label={t('padNext')} onPress={next} />
          <Pressed wide label={t('padDone')} onPress={props.pad.close} />
        </div>
      </section>
    </Show>
  )
}
