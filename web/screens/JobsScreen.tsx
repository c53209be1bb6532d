import { createSignal, For, Show } from 'solid-js'
import { jobFigures } from '../../api/domain/job/figures.ts'
import { showNumber } from '../../api/domain/units.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { JobForm } from '../parts/forms/JobForm.tsx'
import { Sheet } from '../parts/Sheet.tsx'
import type { Draft } from '../state/draft.ts'
import { usePhone } from '../state/phone.ts'

/** All jobs that this phone has, and a new one. */
export const JobsScreen = () => {
  const { t, jobs, newId, log, go } = usePhone()
  const [opening, setOpening] = createSignal(false)
  const openJob = async ({ body, occurredAt, source }: Draft<'job.opened'>) => {
    const job = newId()
    if (!(await log({ job, kind: 'job.opened', body, occurredAt, source }))) return
    setOpening(false)
    go(`/job/${job}`)
  }
  return (
    <main>
      <h1 class="board">{jobs.members().company?.name ?? t('jobs')}</h1>
      <Show when={jobs.mayMake('job.opened') || jobs.members().people.size === 0}>
        <button type="button" class="main wide" onClick={() => setOpening(true)}>
          {t('openJob')}
        </button>
      </Show>
      <Show when={jobs.jobs().length > 0} fallback={<p>{t('noJobs')}</p>}>
        <ul class="plain-list">
          <For each={jobs.jobs()}>{(job) => <JobLine job={job} />}</For>
        </ul>
      </Show>
      <nav class="wrap" aria-label={t('places')}>
        <a class="button" href="/people">
          {t('people')}
        </a>
        <a class="button" href="/office">
          {t('officeDesk')}
        </a>
      </nav>
      <Cautions of={['cautionBurns', 'cautionTruck', 'cautionCodes']} />
      <Show when={opening()}>
        <Sheet title={t('openJob')} onClose={() => setOpening(false)}>
          <JobForm onSave={openJob} />
        </Sheet>
      </Show>
    </main>
  )
}

const JobLine = (props: { job: string }) => {
  const { t, jobs } = usePhone()
  const view = () => jobs.view(props.job)
  const figures = () => jobFigures(view())
  const yards = () => {
    const { orderedYards, ticketedYards } = figures()
    const ticketed = showNumber(ticketedYards)
    return orderedYards
      ? t('yardsOf', { ticketed, ordered: showNumber(orderedYards) })
      : t('yardsOnly', { ticketed })
  }
  return (
    <li>
      <a class="job-line" href={`/job/${props.job}`}>
        <strong>{view().name[0]?.value ?? t('jobWithoutName')}</strong>
        <span>
          {t('loadsCount', { count: view().loads.length })} · {yards()}
        </span>
      </a>
    </li>
  )
}
