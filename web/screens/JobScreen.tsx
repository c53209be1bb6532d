import { createSignal, For, lazy, Show, Suspense } from 'solid-js'
import { Answers } from '../parts/Answer.tsx'
import { Cautions } from '../parts/Cautions.tsx'
import { HistoryList } from '../parts/HistoryList.tsx'
import { JobTools } from '../parts/JobTools.tsx'
import { LoadCard } from '../parts/LoadCard.tsx'
import { OverJob } from '../parts/OverJob.tsx'
import { PhotoBlock } from '../parts/PhotoBlock.tsx'
import { Dock } from '../parts/pour/Dock.tsx'
import { Rail } from '../parts/pour/Rail.tsx'
import { RemarkBlock } from '../parts/RemarkBlock.tsx'
import { ScreenHead } from '../parts/ScreenHead.tsx'
import { YardsBoard } from '../parts/YardsBoard.tsx'
import { createJobHere, JobContext } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'

const pour = () => import('../parts/pour.ts')
const JobSections = lazy(async () => ({ default: (await pour()).JobSections }))
const JoinCards = lazy(async () => ({ default: (await pour()).JoinCards }))

/** The pour: yards and trucks on top, the next tap under the thumb; then the loads, and everything that was logged. */
export const JobScreen = (props: { job: string }) => {
  const phone = usePhone()
  const { t } = phone
  const job = createJobHere(phone, props.job)
  /** The load that somebody took in hand, by its tag; else the dock goes by what happens. */
  const [chosen, setChosen] = createSignal<string>()
  return (
    <JobContext.Provider value={job}>
      <main>
        <ScreenHead title={job.name() ?? t('jobWithoutName')} />
        <Show when={job.view().name.length > 1}>
          <Answers fact={job.view().name} show={(said) => said.value} />
        </Show>
        <Rail chosen={chosen()} onChoose={setChosen} />
        <YardsBoard />
        <Cautions of={['cautionTruck']} />
        <h2 class="board">{t('loads')}</h2>
        <button
          type="button"
          class="second"
          onClick={() => job.setOver({ is: 'new', kind: 'ticket.recorded', load: phone.newId() })}
        >
          {t('ticketFirst')}
        </button>
        <Suspense>
          <JoinCards />
        </Suspense>
        <Show when={job.loadIds().length > 0} fallback={<p>{t('noLoads')}</p>}>
          <For each={job.loadIds()}>{(load) => <LoadCard load={load} />}</For>
        </Show>
        <h2 class="board">{t('wholeJob')}</h2>
        <Suspense fallback={<p role="status">{t('waiting')}</p>}>
          <JobSections />
        </Suspense>
        <div class="card">
          <PhotoBlock />
          <RemarkBlock />
        </div>
        <HistoryList />
        <Show when={job.view().unread > 0}>
          <p>⚠ {t('unreadCount', { count: job.view().unread })}</p>
        </Show>
        <JobTools job={props.job} onSlip={() => job.setOver({ is: 'slip' })} />
        <Cautions of={['cautionBurns', 'cautionHearing', 'cautionCodes']} />
      </main>
      {/* For those who log at the truck; the office reads. */}
      <Show when={phone.jobs.mayMake('discharge.started')}>
        <Dock chosen={chosen()} onChoose={setChosen} />
      </Show>
      <OverJob />
    </JobContext.Provider>
  )
}
