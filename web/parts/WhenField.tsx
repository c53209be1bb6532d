import { Show } from 'solid-js'
import type { LocalTime } from '../../api/domain/time.ts'
import { readWhen, type When } from '../state/draft.ts'
import { EXAMPLES, markWords, whenMark } from '../state/field-mark.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showTime } from '../state/show.ts'
import { Choice } from './Choice.tsx'
import { HalfChoice } from './HalfChoice.tsx'
import { TextField } from './TextField.tsx'

/** When it happened. For a correction the logged time stands unless another is given. */
export const WhenField = (props: {
  when: When
  onChange: (when: When) => void
  kept?: LocalTime | undefined
  /** Whether it was tried to save: an open or unreadable time is marked from then on. */
  tried: boolean
}) => {
  const { t, world } = usePhone()
  const job = useJob()
  const first = () =>
    props.kept === undefined
      ? ({ value: 'now', label: t('now') } as const)
      : ({ value: 'kept', label: t('asLogged', { time: showTime(props.kept) }) } as const)
  const time = () => readWhen(props.when, world.now(), job.zone(), props.kept)
  const wrong = () =>
    props.tried && !time() ? markWords(t, whenMark(props.when), EXAMPLES.clock) : undefined
  const at = () => (props.when.is === 'at' ? props.when : undefined)
  return (
    <div class="when">
      <Choice
        legend={t('whenWasIt')}
        options={[first(), { value: 'at', label: t('otherTime') }]}
        value={props.when.is}
        onPick={(is) => props.onChange(is === 'at' ? { is, text: '', half: undefined } : { is })}
      />
      <Show when={at()}>
        {(given) => (
          <>
            <TextField
              label={t('clockTime')}
              keys="numeric"
              most={5}
              value={given().text}
              wrong={wrong()}
              onInput={(text) => props.onChange({ ...given(), text })}
            />
            <HalfChoice
              text={given().text}
              half={given().half}
              time={time()}
              onPick={(half) => props.onChange({ ...given(), half })}
              onDay={(days) => props.onChange({ ...given(), days: (given().days ?? 0) + days })}
            />
          </>
        )}
      </Show>
    </div>
  )
}
