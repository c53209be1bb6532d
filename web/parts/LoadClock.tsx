import { For, Match, Switch } from 'solid-js'
import { toLocalTime } from '../../api/domain/time.ts'
import { ODDITIES } from '../state/finding-text.ts'
import { useJob } from '../state/job-here.ts'
import { limitText } from '../state/limit-text.ts'
import { limitLines, loadClock } from '../state/load-clock.ts'
import { usePhone } from '../state/phone.ts'

/** The largest number on the card: minutes since batching, and what this ticket says of it. */
export const LoadClock = (props: { load: string }) => {
  const { t, now } = usePhone()
  const job = useJob()
  const here = () => toLocalTime(now(), job.zone())
  const both = () => {
    const load = job.load(props.load)
    const figures = job.loadFigures(props.load)
    return load && figures
      ? { clock: loadClock(load, figures, here()), lines: limitLines(load, figures, here(), job.view().mix) }
      : undefined
  }
  const minutes = () => {
    const clock = both()?.clock
    return clock?.is === 'running' || clock?.is === 'ended' ? clock : undefined
  }
  return (
    <div class="clock">
      <Switch>
        <Match when={minutes()}>
          {(clock) => (
            <>
              <output class="figure big">
                {clock().minutes.join(' / ')} <small>{t('unitMin')}</small>
              </output>
              <span class="clock-what">
                {t(clock().is === 'running' ? 'sinceBatching' : 'batchingToEnd')}
              </span>
            </>
          )}
        </Match>
        <Match when={both()?.clock.is === 'no-ticket'}>
          <span>{t('clockNoTicket')}</span>
        </Match>
        <Match when={both()?.clock.is === 'batching-not-stated'}>
          <span>{t('clockNoBatching')}</span>
        </Match>
        <Match when={both()?.clock.is === 'end-not-recorded'}>
          <span>{t('clockNoEnd')}</span>
        </Match>
      </Switch>
      <For each={both()?.lines ?? []}>{(line) => <p class="limit">{limitText(t, line)}</p>}</For>
      <For each={job.loadFigures(props.load)?.oddities ?? []}>
        {(odd) => <p class="odd">⚠ {t(ODDITIES[odd])}</p>}
      </For>
    </div>
  )
}
