import { createSignal, For, lazy, Show, Suspense } from 'solid-js'
import { MISSING } from '../state/finding-text.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { LoadClock } from './LoadClock.tsx'
import { PauseRow } from './PauseRow.tsx'
import { PhotoBlock } from './PhotoBlock.tsx'
import { RemarkBlock } from './RemarkBlock.tsx'
import { SlumpBlock } from './SlumpBlock.tsx'
import { type MomentKind, StampRow } from './StampRow.tsx'
import { TicketBlock } from './TicketBlock.tsx'
import { WaterBlock } from './WaterBlock.tsx'

const ORDER: readonly MomentKind[] = ['load.arrived', 'discharge.started', 'discharge.ended', 'load.left']

/** What a load has beside its times, ticket, slump and water is a further file. */
const pour = () => import('./pour.ts')
const LoadTests = lazy(async () => ({ default: (await pour()).LoadTests }))
const LoadOutcome = lazy(async () => ({ default: (await pour()).LoadOutcome }))
const LoadMore = lazy(async () => ({ default: (await pour()).LoadMore }))
const JoinedNote = lazy(async () => ({ default: (await pour()).JoinedNote }))

/** A load as a tag: open while its truck is on the job, folded once it has left. */
export const LoadCard = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const load = () => job.load(props.load)
  const figures = () => job.loadFigures(props.load)
  const gone = () => (load()?.left.length ?? 0) > 0
  const [opened, setOpened] = createSignal<boolean>()
  const open = () => opened() ?? !gone()
  const stampsDone = () => {
    const l = load()
    return l ? [l.arrived, l.started, l.ended, l.left].map((fact) => fact.length > 0) : []
  }
  const next = () => stampsDone().lastIndexOf(true) + 1
  const given = (of: 'number' | 'truck') => {
    const value = load()?.ticket[0]?.value[of]
    return value?.is === 'given' ? value.text : undefined
  }
  return (
    <article
      class="card"
      aria-label={t('loadNumber', { number: load()?.ordinal ?? '' })}
      data-load={props.load}
    >
      <header class="card-head">
        <h3>{t('loadNumber', { number: load()?.ordinal ?? '' })}</h3>
        <button type="button" class="plain" aria-expanded={open()} onClick={() => setOpened(!open())}>
          {t(open() ? 'fold' : 'unfold')}
        </button>
        <Show when={given('truck') ?? given('number')}>
          <p class="card-whose">
            <Show when={given('truck')}>{(truck) => <span>{`${t('truck')} ${truck()}`}</span>}</Show>
            <Show when={given('number')}>
              {(number) => <span>{`${t('ticketNumber')} ${number()}`}</span>}
            </Show>
          </p>
        </Show>
      </header>
      <Show when={(load()?.joined.length ?? 0) > 0}>
        <Suspense>
          <JoinedNote load={props.load} />
        </Suspense>
      </Show>
      <LoadClock load={props.load} />
      <Show when={(figures()?.missing.length ?? 0) > 0}>
        <p class="missing">
          <strong>{t(gone() ? 'missing' : 'notYet')}</strong>{' '}
          {figures()
            ?.missing.map((key) => t(MISSING[key]))
            .join(', ')}
        </p>
      </Show>
      <Show when={open()}>
        <fieldset class="block" aria-label={t('moments')}>
          <For each={ORDER}>
            {(kind, i) => (
              <>
                <Show when={kind === 'discharge.ended'}>
                  <PauseRow load={props.load} />
                </Show>
                <StampRow load={props.load} kind={kind} next={i() === next()} />
              </>
            )}
          </For>
        </fieldset>
        <TicketBlock load={props.load} />
        <SlumpBlock load={props.load} />
        <Suspense>
          <LoadTests load={props.load} />
        </Suspense>
        <WaterBlock load={props.load} />
        <Suspense>
          <LoadOutcome load={props.load} />
        </Suspense>
        <PhotoBlock load={props.load} />
        <RemarkBlock load={props.load} />
        <Suspense>
          <LoadMore load={props.load} />
        </Suspense>
      </Show>
    </article>
  )
}
