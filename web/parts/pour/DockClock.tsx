import { For, Show } from 'solid-js'
import { toLocalTime } from '../../../api/domain/time.ts'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import { MISSING } from '../../state/finding-text.ts'
import { useJob } from '../../state/job-here.ts'
import { howItStands } from '../../state/limit-text.ts'
import { limitLines, loadClock } from '../../state/load-clock.ts'
import { usePhone } from '../../state/phone.ts'
import { type Stage, stageOf } from '../../state/pour/stage.ts'

export const STAGES: Readonly<Record<Stage, LabelKey>> = {
  expected: 'stageExpected',
  here: 'stageHere',
  discharging: 'stageDischarging',
  paused: 'stagePaused',
  emptied: 'stageEmptied',
  gone: 'stageGone',
}

/** The load in hand: which it is, where it is in its visit, its minutes and what its own limit leaves of them. */
export const DockClock = (props: { load: string }) => {
  const { t, now } = usePhone()
  const job = useJob()
  const here = () => toLocalTime(now(), job.zone())
  const load = () => job.load(props.load)
  const figures = () => job.loadFigures(props.load)
  const clock = () => {
    const [one, of] = [load(), figures()]
    return one && of ? loadClock(one, of, here()) : undefined
  }
  const minutes = () => {
    const is = clock()
    const counted = is?.is === 'running' || is?.is === 'ended' ? is.minutes : []
    return counted.length > 0 && counted.every((n) => n >= 0) ? counted.join(' / ') : '–'
  }
  const stands = () => {
    const [one, of] = [load(), figures()]
    const lines = one && of ? limitLines(one, of, here(), job.view().mix) : []
    return lines.map((line) => {
      if (line.is === 'not-stated') return t('limitNotStated')
      // Where there is a batching time it lies ahead of the clock.
      if (line.is === 'uncountable')
        return t(clock()?.is === 'running' ? 'oddTimesBackwards' : 'clockNoBatching')
      return howItStands(t, line)
    })
  }
  const truck = () => {
    const value = load()?.ticket[0]?.value.truck
    return value?.is === 'given' ? ` · ${value.text}` : ''
  }
  return (
    <div class="dock-clock">
      <output class="figure" aria-label={t('sinceBatching')}>
        {minutes()} <small>{t('unitMin')}</small>
      </output>
      <p>
        <strong>
          {t('loadNumber', { number: load()?.ordinal ?? '' })}
          {truck()}
        </strong>
        <span>{t(STAGES[stageOf(load()!)])}</span>
        <Show
          when={stands().length > 0}
          fallback={
            <span>
              {t('ticket')}: {t('notRecorded')}
            </span>
          }
        >
          <For each={stands()}>{(text) => <span class="dock-stands">{text}</span>}</For>
        </Show>
        <Show when={(figures()?.missing.length ?? 0) > 0 && load()!.ended.length > 0}>
          <span class="dock-lacks">
            {t('missing')}{' '}
            {figures()
              ?.missing.map((key) => t(MISSING[key]))
              .join(', ')}
          </span>
        </Show>
      </p>
    </div>
  )
}
