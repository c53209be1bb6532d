import { createSignal, For, Show } from 'solid-js'
import { clockOf, toLocalTime } from '../../api/domain/time.ts'
import { deviceZone } from '../device/clock.ts'
import { usePhone } from '../state/phone.ts'
import { sentenceOf, stopSentence } from '../state/sync-words.ts'
import { DemoStrip } from './DemoStrip.tsx'
import { GroundSwitch } from './GroundSwitch.tsx'
import { LanguageSwitch } from './LanguageSwitch.tsx'
import { Refused } from './Refused.tsx'

const CLOCK_OFF_MS = 60_000

/** Always in view: is there a network, what waits on this phone. Opened, all that is known of the sync. */
export const SyncStrip = () => {
  const phone = usePhone()
  const { t, sync, own, snapshot, jobs } = phone
  const [open, setOpen] = createSignal(false)
  const waiting = () => own.waiting()
  const clockOff = () => {
    const offset = snapshot()?.clockOffset ?? 0
    return Math.abs(offset) > CLOCK_OFF_MS ? Math.round(offset / 1000) : undefined
  }
  const stopped = () => stopSentence(sync.last())
  const evidence = () => snapshot()?.evidence ?? []
  const trouble = () => stopped() !== undefined || evidence().length > 0 || own.refused().length > 0
  const synced = () => {
    const at = sync.lastSynced()
    return at === undefined
      ? t('notSyncedYet')
      : t('syncedAt', { time: clockOf(toLocalTime(at, deviceZone())) })
  }
  return (
    <section class="strip" aria-label={t('syncStrip')}>
      <DemoStrip />
      <button type="button" class="strip-line" aria-expanded={open()} onClick={() => setOpen(!open())}>
        <span>
          <span aria-hidden="true">{sync.hasNetwork() ? '⇅' : '⊘'}</span>{' '}
          {t(sync.hasNetwork() ? 'network' : 'noNetwork')}
        </span>
        <span class="strip-waits">
          {waiting() + own.photosWaiting() === 0
            ? t('nothingWaits')
            : t('waits', { entries: waiting(), photos: own.photosWaiting() })}
        </span>
        <Show when={trouble()}>
          <strong>
            ⚠ {own.refused().length > 0 ? `${t('refusedCount', { count: own.refused().length })} · ` : ''}
            {t('lookHere')}
          </strong>
        </Show>
      </button>
      <Show when={stopped()}>{(says) => <p class="strip-note">⚠ {t(says(), { at: '' })}</p>}</Show>
      <Show when={clockOff()}>
        {(seconds) => <p class="strip-note">⚠ {t('clockOff', { seconds: seconds() })}</p>}
      </Show>
      <Show when={evidence().length > 0}>
        <p class="strip-note">⚠ {t('evidenceKept', { count: evidence().length })}</p>
      </Show>
      <Show
        when={
          !open() &&
          sync.persistence() !== undefined &&
          sync.persistence() !== 'granted' &&
          waiting() > 0 &&
          !sync.hasNetwork()
        }
      >
        <p class="strip-note">⚠ {t('mayBeCleared')}</p>
      </Show>
      <Show when={open()}>
        <div class="strip-more">
          <p>{sync.running() ? t('syncing') : synced()}</p>
          <p>{t(sync.persistence() === 'granted' ? 'storagePersisted' : 'storageNotPersisted')}</p>
          <Show when={own.waitsForServer() > 0}>
            <p>{t('problemProtocolNewer')}</p>
          </Show>
          <Show when={own.setAside() > 0}>
            <p>⚠ {t('setAsideCount', { count: own.setAside() })}</p>
          </Show>
          <Show when={jobs.unread() > 0}>
            <p>⚠ {t('unreadCount', { count: jobs.unread() })}</p>
          </Show>
          <For each={evidence()}>
            {(e) => (
              <p class="small">
                ⚠ {`${e.at.slice(0, 16).replace('T', ' ')} `}
                {t(sentenceOf(e.code))}
              </p>
            )}
          </For>
          <Refused />
          <div class="wrap">
            <button type="button" onClick={() => sync.ask()}>
              {t('syncNow')}
            </button>
          </div>
          <LanguageSwitch />
          <GroundSwitch />
        </div>
      </Show>
    </section>
  )
}
