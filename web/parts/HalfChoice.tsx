import { Show } from 'solid-js'
import { type Half, readClock } from '../state/clock-text.ts'
import { usePhone } from '../state/phone.ts'
import { Choice } from './Choice.tsx'

/** Shows the clock time that was understood, and asks morning or evening where the digits don't say. */
export const HalfChoice = (props: { text: string; half: Half | undefined; onPick: (half: Half) => void }) => {
  const { t } = usePhone()
  const read = () => readClock(props.text, props.half)
  const ambiguous = () => readClock(props.text, undefined).is === 'asks-half'
  return (
    <>
      <Show when={ambiguous()}>
        <Choice
          small
          legend={t('whichHalf')}
          options={[
            { value: 'am', label: t('am') },
            { value: 'pm', label: t('pm') },
          ]}
          value={props.half}
          onPick={props.onPick}
        />
      </Show>
      <Show when={clockOf(read())}>{(clock) => <output class="echo">{clock()}</output>}</Show>
    </>
  )
}

const clockOf = (read: ReturnType<typeof readClock>): string | undefined =>
  read.is === 'clock' ? read.clock : undefined
