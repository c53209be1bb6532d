import { For, Show } from 'solid-js'
import { toLocalTime } from '../../../api/domain/time.ts'
import { useJob } from '../../state/job-here.ts'
import { loadClock } from '../../state/load-clock.ts'
import { usePhone } from '../../state/phone.ts'
import { loadInHand, stageOf } from '../../state/pour/stage.ts'
import { STAGES } from './DockClock.tsx'

/** Trucks that are gone and still have a tag here; the rest are below, on their cards. Source: our choice. */
const GONE = 3

/** The day's trucks as tags in a row. A touch takes a load in hand: the dock is then about that one. */
export const Rail = (props: { chosen: string | undefined; onChoose: (load: string) => void }) => {
  const { t, now } = usePhone()
  const job = useJob()
  const shown = () => {
    const all = job.view().loads
    const gone = all.filter((load) => stageOf(load) === 'gone').slice(-GONE)
    return all.filter((load) => stageOf(load) !== 'gone' || gone.includes(load)).map((load) => load.id)
  }
  const inHand = () => loadInHand(job.view().loads, props.chosen)?.id
  const minutes = (id: string): string | undefined => {
    const [load, figures] = [job.load(id), job.loadFigures(id)]
    if (!load || !figures) return undefined
    const clock = loadClock(load, figures, toLocalTime(now(), job.zone()))
    return clock.is === 'running' || clock.is === 'ended' ? clock.minutes.join(' / ') : undefined
  }
  return (
    <Show when={shown().length > 0}>
      <section class="rail" aria-label={t('rail')}>
        <For each={shown()}>
          {(id) => (
            <Show when={job.load(id)}>
              {(load) => (
                <button
                  type="button"
                  class="rail-tag"
                  aria-pressed={inHand() === id}
                  data-stage={stageOf(load())}
                  onClick={() => props.onChoose(id)}
                >
                  <strong>{load().ordinal}</strong>
                  <span>{t(STAGES[stageOf(load())])}</span>
                  <Show when={minutes(id)}>
                    {(text) => <span>{t('minutesCount', { minutes: text() })}</span>}
                  </Show>
                </button>
              )}
            </Show>
          )}
        </For>
      </section>
    </Show>
  )
}
