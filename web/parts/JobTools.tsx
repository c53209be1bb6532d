import { createSignal, Show } from 'solid-js'
import { jobsAnswer } from '../../api/contract/messages/job.ts'
import { PROBLEMS } from '../../api/contract/problems.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'
import { ask, readAnswer } from '../sync/answer.ts'
import { WireDown } from '../sync/wire.ts'

/** What the server makes of a job: the record, for those who may, and a witness slip. */
export const JobTools = (props: { job: string; onSlip: () => void }) => {
  const { t, jobs, world, own } = usePhone()
  const [problem, setProblem] = createSignal<LabelKey>()
  const [busy, setBusy] = createSignal(false)
  const makeRecord = async () => {
    setBusy(true)
    setProblem(await signedIn(world).finally(() => setBusy(false)))
    // A download by the browser itself: a record may be far larger than a page can hold in memory.
    if (!problem()) location.assign(`/api/jobs/${props.job}/record.zip`)
  }
  return (
    <section class="tools" aria-label={t('handOut')}>
      <Show when={own.waiting() + own.photosWaiting() > 0}>
        <p>⚠ {t('recordWithout', { entries: own.waiting(), photos: own.photosWaiting() })}</p>
      </Show>
      <div class="wrap">
        <Show when={jobs.mayDo('export')}>
          <button type="button" disabled={busy()} onClick={() => void makeRecord()}>
            {t('makeRecord')}
          </button>
        </Show>
        <button type="button" onClick={() => props.onSlip()}>
          {t('handOutSlip')}
        </button>
      </div>
      <Show when={problem()}>{(says) => <p role="alert">⚠ {t(says(), { at: '' })}</p>}</Show>
    </section>
  )
}

/** A download carries only the cookie, so the session is made good first; what keeps it from that, as a sentence. */
const signedIn = async (world: Parameters<typeof ask>[0]): Promise<LabelKey | undefined> => {
  try {
    const answer = readAnswer(await ask(world, { method: 'GET', path: '/api/jobs' }), jobsAnswer)
    return answer.ok ? undefined : PROBLEMS[answer.refused.code].says
  } catch (error) {
    if (error instanceof WireDown) return 'needsNetwork'
    throw error
  }
}
