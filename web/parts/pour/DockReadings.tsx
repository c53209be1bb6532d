import { For, Show } from 'solid-js'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import { type QuickAsk, useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { stageOf } from '../../state/pour/stage.ts'
import { showShows } from '../../state/show.ts'
import { PhotoButton } from '../PhotoButton.tsx'

type Reading = { readonly ask: QuickAsk; readonly label: LabelKey }
const TESTS: readonly Reading[] = [
  { ask: 'slump', label: 'slump' },
  { ask: 'air', label: 'shortAir' },
  { ask: 'concrete-temperature', label: 'shortDegrees' },
]
/** Once the drum is empty, what was left of it matters more than a test of what is in the forms. */
const AFTERWARDS: readonly Reading[] = [{ ask: 'left-over', label: 'leftInDrum' }]
const WATER: Reading = { ask: 'water', label: 'water' }

/** Readings of the load in hand, a photo, and the truck that comes while this one is still here. */
export const DockReadings = (props: { load: string; waits: boolean; onAnother: () => void }) => {
  const { t, jobs } = usePhone()
  const job = useJob()
  const hasTicket = () =>
    job.load(props.load)?.photos.some((photo) => photo.value.shows === 'ticket') ?? false
  const isOver = () => ['emptied', 'gone'].includes(stageOf(job.load(props.load)!))
  const readings = () => [...(isOver() ? AFTERWARDS : TESTS), WATER]
  const shows = () => (hasTicket() ? 'load' : 'ticket')
  return (
    <div class="dock-readings">
      <For each={readings()}>
        {({ ask, label }) => (
          <button type="button" onClick={() => job.setOver({ is: 'quick', ask, load: props.load })}>
            {t(label)}
          </button>
        )}
      </For>
      <Show when={isOver()}>
        <button
          type="button"
          onClick={() => job.setOver({ is: 'new', kind: 'load.placed', load: props.load })}
        >
          {t('shortWhere')}
        </button>
      </Show>
      <PhotoButton shows={shows()} load={props.load}>
        {showShows(t, shows())}
      </PhotoButton>
      <Show when={jobs.mayMake('load.arrived')}>
        <button type="button" disabled={props.waits} onClick={() => props.onAnother()}>
          {t('anotherTruck')}
        </button>
      </Show>
    </div>
  )
}
