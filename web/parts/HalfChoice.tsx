import { Show } from 'solid-js'
import type { LocalTime } from '../../api/domain/time.ts'
import { type Half, readClock } from '../state/clock-text.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showTime } from '../state/show.ts'
import { Choice } from './Choice.tsx'

/** Shows the clock time that was understood, and asks morning or evening where the digits don't say. */
export const HalfChoice = (props: {
  text: string
  half: Half | undefined
  onPick: (half: Half) => void
  /** The time that it comes to, by which its day is shown where that is not today. */
  time: LocalTime | undefined
  /** Moves the day by one, where the time may lie on another than the nearest. */
  onDay?: (days: -1 | 1) => void
}) => {
  const { t } = usePhone()
  const job = useJob()
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
      <Show when={props.time}>
        {(time) => (
          <>
            <output class="echo">{showTime(time(), job.localNow())}</output>
            <Show when={props.onDay}>
              {(onDay) => (
                <div class="wrap">
                  <button type="button" class="second" onClick={() => onDay()(-1)}>
                    {t('dayBefore')}
                  </button>
                  <button type="button" class="second" onClick={() => onDay()(1)}>
                    {t('dayAfter')}
                  </button>
                </div>
              )}
            </Show>
          </>
        )}
      </Show>
    </>
  )
}
