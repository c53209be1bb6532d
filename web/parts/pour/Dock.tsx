import { createSignal, For, Match, Show, Switch } from 'solid-js'
import { readLocalTime } from '../../../api/domain/time.ts'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { blanksOf } from '../../state/pour/blanks.ts'
import { nextPromised } from '../../state/pour/expected.ts'
import { loadInHand, nextTaps, stageOf, type TapKind } from '../../state/pour/stage.ts'
import { showTime } from '../../state/show.ts'
import { DockClock } from './DockClock.tsx'
import { DockReadings } from './DockReadings.tsx'
import { UndoBar } from './UndoBar.tsx'
import { WaterQuestion } from './WaterQuestion.tsx'

const TAPS: Readonly<Record<TapKind, LabelKey>> = {
  'load.arrived': 'truckHere',
  'crew.ready': 'crewReady',
  'discharge.started': 'dischargeStarted',
  'discharge.paused': 'pause',
  'discharge.resumed': 'resume',
  'discharge.ended': 'dischargeEnded',
  'load.left': 'truckLeft',
}

/** Under the thumb: the load in hand, and the tap that most likely comes next as the largest thing there. */
export const Dock = (props: { chosen: string | undefined; onChoose: (load: string | undefined) => void }) => {
  const { t, newId, jobs } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const load = () => loadInHand(job.view().loads, props.chosen)
  const stage = () => {
    const one = load()
    return one && stageOf(one)
  }
  const taps = () => {
    const one = load()
    return one && nextTaps(one)
  }
  const waits = () => busy() || job.isSettling()
  const tap = async (kind: TapKind, of: string) => {
    if (waits()) return
    setBusy(true)
    const kept = await job.tap(kind, { load: of }).finally(() => setBusy(false))
    // Whoever says that a truck is here, or gone, has the next one in hand.
    if (kept && (kind === 'load.arrived' || kind === 'load.left')) props.onChoose(undefined)
  }
  /** Before the signature it is read; after it the truck leaves. */
  const isToRead = () => stage() === 'emptied' && load()!.signed.length === 0
  /** Not before the first truck: while one backs in nobody is asked for anything. */
  const blanks = () =>
    job.view().loads.some((one) => stageOf(one) === 'gone') ? blanksOf(job.view(), job.figures()).length : 0
  const promised = () =>
    nextPromised(job.view(), job.figures(), job.zone(), readLocalTime(job.localNow()) ?? 0)
  return (
    <section class="dock" aria-label={t('dock')}>
      <UndoBar />
      <Show
        when={load()?.id}
        keyed
        fallback={
          <>
            <Show when={promised()}>
              {(time) => (
                <p class="dock-note">{t('nextPromised', { time: showTime(time(), job.localNow()) })}</p>
              )}
            </Show>
            <div class="dock-taps">
              <button
                type="button"
                class="main next"
                disabled={waits() || !jobs.mayMake('load.arrived')}
                onClick={() => void tap('load.arrived', newId())}
              >
                {busy() ? t('keeping') : t('truckHere')}
              </button>
            </div>
          </>
        }
      >
        {(id) => (
          <>
            <DockClock load={id} />
            <WaterQuestion load={id} />
            <div class="dock-taps">
              <Switch>
                <Match when={isToRead()}>
                  <button
                    type="button"
                    class="main next"
                    onClick={() => job.setOver({ is: 'read-out', load: id })}
                  >
                    {t('readBefore')}
                  </button>
                  <button type="button" disabled={waits()} onClick={() => void tap('load.left', id)}>
                    {t('truckLeft')}
                  </button>
                </Match>
                <Match when={taps()}>
                  {(now) => (
                    <>
                      <button
                        type="button"
                        class="main next"
                        disabled={waits()}
                        onClick={() => void tap(now().next, id)}
                      >
                        {busy() ? t('keeping') : t(TAPS[now().next])}
                      </button>
                      <For each={now().also}>
                        {(kind) => (
                          <button type="button" disabled={waits()} onClick={() => void tap(kind, id)}>
                            {t(TAPS[kind])}
                          </button>
                        )}
                      </For>
                    </>
                  )}
                </Match>
              </Switch>
            </div>
            <DockReadings load={id} waits={waits()} onAnother={() => void tap('load.arrived', newId())} />
          </>
        )}
      </Show>
      <Show when={blanks() > 0 && (stage() === undefined || stage() === 'gone')}>
        <button type="button" class="dock-blanks" onClick={() => job.setOver({ is: 'blanks' })}>
          {t('blanksCount', { count: blanks() })}
        </button>
      </Show>
    </section>
  )
}
