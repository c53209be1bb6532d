import { createMemo, For, Show } from 'solid-js'
import { type LocalTime, readLocalTime, toLocalTime } from '../../api/domain/time.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showMinutes, showTime, showValue } from '../state/show.ts'
import { createLatest, Earlier } from './Earlier.tsx'
import { StateMark } from './StateMark.tsx'

/** Lines that are shown before somebody asks for all. */
const MOST = 40

/** Every entry of the job, newest last; what was corrected or taken back is struck through, with the reason. */
export const HistoryList = () => {
  const { t, own, jobs } = usePhone()
  const job = useJob()
  const latest = createLatest(() => job.view().history.map((line) => line.hash), MOST)
  const reasons = createMemo(() => {
    const why = new Map<string, string>()
    for (const { entry, inForce } of job.view().history)
      if (inForce) for (const target of entry.corrects ?? []) why.set(target, entry.why?.text ?? '')
    return why
  })
  /** By the clock on the site: the server, or a phone from elsewhere, may have another zone. */
  const onSite = (time: LocalTime): LocalTime => {
    const at = readLocalTime(time)
    return at === undefined ? time : toLocalTime(at, job.zone())
  }
  const numberOf = (load: string) => job.load(load)?.ordinal
  return (
    <section aria-label={t('history')}>
      <h3 class="board">{t('history')}</h3>
      <Earlier of={latest} />
      <ol class="history">
        <For each={latest.shown()}>
          {(hash) => (
            <Show when={job.line(hash)}>
              {(line) => {
                const entry = () => line().entry
                const load = () => {
                  const { body } = entry()
                  const number = 'load' in body && body.load ? numberOf(body.load) : undefined
                  return number === undefined ? '' : ` · ${t('loadNumber', { number })}`
                }
                // The time stands in front already.
                const value = () => {
                  const text = showValue(t, entry(), job.names(t))
                  return text === showTime(entry().occurredAt) ? '' : text
                }
                const by = () => {
                  const maker = entry().by
                  return maker.known === 'server'
                    ? t('theServer')
                    : (jobs.nameOf(maker.person) ?? t('somebody'))
                }
                return (
                  <li>
                    <button
                      type="button"
                      class="history-line"
                      data-kind={entry().kind}
                      data-stands={line().stands}
                      onClick={() => job.setOver({ is: 'entry', hash })}
                    >
                      <span class="history-time">{showTime(onSite(entry().occurredAt), job.localNow())}</span>
                      <span class="history-what" classList={{ struck: !line().stands }}>
                        <strong>{kindWord(t, entry().kind)}</strong>
                        {load()} {value()}
                      </span>
                      <span class="history-notes">
                        <Show when={!line().stands}>
                          <span>
                            {t('noLongerStands')} {reasons().get(hash)}
                          </span>
                        </Show>
                        <Show when={entry().corrects}>
                          <span>{t('changesEarlier', { why: entry().why?.text ?? '' })}</span>
                        </Show>
                        <Show when={line().late}>
                          <span class="late">
                            {t('loggedLate', { delay: showMinutes(t, line().delayMinutes) })}
                          </span>
                        </Show>
                        <span>{by()}</span>
                        <StateMark where={own.whereIs(hash)} />
                      </span>
                    </button>
                  </li>
                )
              }}
            </Show>
          )}
        </For>
      </ol>
    </section>
  )
}
