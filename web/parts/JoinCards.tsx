import { createSignal, For, Show } from 'solid-js'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { type Lookalike, lookalikes } from '../state/same-truck.ts'

const keyOf = ({ first, second }: Lookalike): string => [first.id, second.id].sort().join('+')

/** Two phones may have logged one truck: one touch joins the loads. That they are two is remembered on this phone. */
export const JoinCards = () => {
  const { t, jobs } = usePhone()
  const job = useJob()
  const [different, setDifferent] = createSignal<readonly string[]>(readDifferent(job.job))
  const [busy, setBusy] = createSignal(false)
  const pairs = () =>
    lookalikes(job.view().loads, job.line).filter((pair) => !different().includes(keyOf(pair)))
  const join = async ({ first, second }: Lookalike) => {
    if (busy()) return
    setBusy(true)
    await job.tap('loads.joined', { loads: [first.id, second.id] }).finally(() => setBusy(false))
  }
  const keepApart = (pair: Lookalike) => {
    const after = [...different(), keyOf(pair)]
    setDifferent(after)
    writeDifferent(job.job, after)
  }
  return (
    <Show when={jobs.mayMake('loads.joined')}>
      <For each={pairs().map(keyOf)}>
        {(key) => (
          <Show when={pairs().find((pair) => keyOf(pair) === key)}>
            {(pair) => (
              <aside class="card same-truck">
                <p class="sum">
                  {t('sameTruck', { first: pair().first.ordinal, second: pair().second.ordinal })}
                </p>
                <p>{t('sameTruckWhy')}</p>
                <div class="wrap">
                  <button type="button" class="main" disabled={busy()} onClick={() => void join(pair())}>
                    {busy() ? t('keeping') : t('joinThem')}
                  </button>
                  <button type="button" onClick={() => keepApart(pair())}>
                    {t('notSame')}
                  </button>
                </div>
              </aside>
            )}
          </Show>
        )}
      </For>
    </Show>
  )
}

/** On a load that was joined: says so, and parts it again with one touch, by taking the join back. */
export const JoinedNote = (props: { load: string }) => {
  const { t, language } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const joins = () => {
    const load = job.load(props.load)
    const ids = new Set([props.load, ...(load?.joined ?? [])])
    return job.view().joins.filter((join) => join.value.loads.some((id) => ids.has(id)))
  }
  const part = async () => {
    if (busy()) return
    setBusy(true)
    const draft = { body: {}, occurredAt: job.localNow(), source: 'tap' } as const
    await job
      .log('entry.withdrawn', draft, {
        corrects: joins().map((join) => join.hash),
        why: { lang: language(), text: t('whyParted') },
      })
      .finally(() => setBusy(false))
  }
  return (
    <div class="joined">
      <p>{t('joinedFrom')}</p>
      <button type="button" class="second" disabled={busy()} onClick={() => void part()}>
        {busy() ? t('keeping') : t('partAgain')}
      </button>
    </div>
  )
}

/** An answer that no entry needs: it only keeps this phone from asking again. */
const stored = (job: string) => `screedbook-two-trucks-${job}`

const readDifferent = (job: string): readonly string[] => {
  try {
    return localStorage.getItem(stored(job))?.split(' ') ?? []
  } catch {
    return []
  }
}

const writeDifferent = (job: string, pairs: readonly string[]): void => {
  try {
    localStorage.setItem(stored(job), pairs.join(' '))
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}
