import { createSignal, Show } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showTime } from '../state/show.ts'
import { Answers } from './Answer.tsx'

/** The four that every load has. */
export type MomentKind = 'load.arrived' | 'discharge.started' | 'discharge.ended' | 'load.left'

const STAMPS: Record<
  MomentKind,
  { readonly label: LabelKey; readonly fact: 'arrived' | 'started' | 'ended' | 'left' }
> = {
  'load.arrived': { label: 'arrived', fact: 'arrived' },
  'discharge.started': { label: 'dischargeStarted', fact: 'started' },
  'discharge.ended': { label: 'dischargeEnded', fact: 'ended' },
  'load.left': { label: 'truckLeft', fact: 'left' },
}

/** One moment of a load: a single tap logs it as now; beside it, another time can be given. Once logged, the time. */
export const StampRow = (props: { load: string; kind: MomentKind; next: boolean }) => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const stamp = () => STAMPS[props.kind]
  const fact = () => job.load(props.load)?.[stamp().fact] ?? []
  const tap = async () => {
    if (busy()) return
    setBusy(true)
    await job.tap(props.kind, { load: props.load }).finally(() => setBusy(false))
  }
  return (
    <Show
      when={fact().length > 0}
      fallback={
        <div class="stamp-open">
          <button type="button" classList={{ main: props.next }} disabled={busy()} onClick={() => void tap()}>
            {busy() ? t('keeping') : t(stamp().label)}
          </button>
          <button
            type="button"
            class="second"
            aria-label={`${t(stamp().label)}: ${t('otherTime')}`}
            onClick={() => job.setOver({ is: 'new', kind: props.kind, load: props.load })}
          >
            {t('otherTime')}
          </button>
        </div>
      }
    >
      <Answers fact={fact()} show={(said) => `${t(stamp().label)} ${showTime(said.value, job.localNow())}`} />
    </Show>
  )
}
