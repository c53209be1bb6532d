import { For, Show } from 'solid-js'
import { readLocalTime, toLocalTime } from '../../api/domain/time.ts'
import { bodyLines } from '../../api/domain/words/body-lines.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showMinutes, showValue } from '../state/show.ts'
import { PhotoImage } from './Photo.tsx'
import { Sheet } from './Sheet.tsx'
import { StateMark } from './StateMark.tsx'

/** Everything about one entry, and the two things that can be done about it: correct it, or take it back. */
export const EntrySheet = (props: { hash: string }) => {
  const { t, own, jobs } = usePhone()
  const job = useJob()
  const line = () => job.line(props.hash)
  const entry = () => line()?.entry
  const by = () => {
    const maker = entry()?.by
    if (maker === undefined || maker.known === 'server') return t('theServer')
    const name = jobs.nameOf(maker.person) ?? t('somebody')
    return maker.known === 'picked' ? `${name} (${t('pickedShared')})` : name
  }
  /** By the clock on the site, whatever zone the device was in. */
  const onSite = (at: number | undefined) =>
    at === undefined ? '' : toLocalTime(at, job.zone()).slice(0, 19).replace('T', ' ')
  const rows = (): [LabelKey, string][] => {
    const is = entry()
    const now = line()
    if (!is || !now) return []
    const why: [LabelKey, string][] = is.why ? [['why', is.why.text]] : []
    return [
      ['by', by()],
      ['occurred', onSite(readLocalTime(is.occurredAt))],
      ['recorded', onSite(readLocalTime(is.recordedAt))],
      [
        'delay',
        now.late
          ? t('loggedLate', { delay: showMinutes(t, now.delayMinutes) })
          : showMinutes(t, now.delayMinutes),
      ],
      ['received', now.receivedAt === undefined ? t('notYetReceived') : onSite(now.receivedAt)],
      ...why,
    ]
  }
  /** What a fuller entry says, member by member. Ids that stand for nothing but themselves are no reading. */
  const members = (): { label: string; text: string }[] => {
    const is = entry()
    if (!is || is.kind === 'photo.taken') return []
    const { load: _, placement: __, ...body } = is.body as { load?: string; placement?: string }
    const lines = bodyLines(body, t.entry(), job.names(t))
    return lines.length > 2 ? lines : []
  }
  const photo = () => {
    const is = entry()
    return is?.kind === 'photo.taken' ? is.body : undefined
  }
  const maker = () => entry()?.by.known !== 'server'
  return (
    <Sheet title={kindWord(t, entry()?.kind ?? 'remark.made')} onClose={() => job.setOver(undefined)}>
      <Show when={entry()} fallback={<p>{t('entryGone')}</p>}>
        {(is) => (
          <>
            <p class="entry-value" classList={{ struck: !line()?.stands }}>
              {members().length > 0 ? '' : showValue(t, is(), job.names(t))}
            </p>
            <Show when={members().length > 0}>
              <dl class="facts">
                <For each={members()}>
                  {({ label, text }) => (
                    <div>
                      <dt>{label}</dt>
                      <dd>{text}</dd>
                    </div>
                  )}
                </For>
              </dl>
            </Show>
            <Show when={photo()}>
              {(picture) => (
                <div class="photo whole">
                  <PhotoImage photo={picture()} size="large" />
                </div>
              )}
            </Show>
            <Show when={!line()?.stands}>
              <p>{t('noLongerStands')}</p>
            </Show>
            <StateMark where={own.whereIs(props.hash)} />
            <dl class="facts">
              <For each={rows()}>
                {([key, value]) => (
                  <div>
                    <dt>{t(key)}</dt>
                    <dd>{value}</dd>
                  </div>
                )}
              </For>
            </dl>
            <p class="small hash">
              {t('entryHash')} {props.hash}
            </p>
            <Show when={line()?.stands && maker()}>
              <div class="form-end">
                <Show when={is().kind !== 'entry.withdrawn'}>
                  <button
                    type="button"
                    class="main"
                    onClick={() => job.setOver({ is: 'correct', hash: props.hash, corrects: [props.hash] })}
                  >
                    {t('correct')}
                  </button>
                </Show>
                <button type="button" onClick={() => job.setOver({ is: 'take-back', hash: props.hash })}>
                  {t(is().kind === 'entry.withdrawn' ? 'restore' : 'takeBack')}
                </button>
              </div>
            </Show>
          </>
        )}
      </Show>
    </Sheet>
  )
}
