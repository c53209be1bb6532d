import { For, Show } from 'solid-js'
import type { Said } from '../../api/domain/job/view.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showMinutes } from '../state/show.ts'
import { StateMark } from './StateMark.tsx'

/**
 * One standing answer: its first line in large type, what else it says below, by whom, and where it is kept. Touching it
 * opens the entry.
 */
export const Answer = (props: { hash: string; value: string }) => {
  const { t, own, jobs } = usePhone()
  const job = useJob()
  const line = () => job.line(props.hash)
  const lines = () => props.value.split('\n')
  const person = () => {
    const by = line()?.entry.by
    return by && by.known !== 'server' ? jobs.nameOf(by.person) : undefined
  }
  return (
    <button type="button" class="answer" onClick={() => job.setOver({ is: 'entry', hash: props.hash })}>
      <span class="answer-value">
        {lines()[0]}
        <Show when={lines().length > 1}>
          <span class="answer-rest">{`\n${lines().slice(1).join('\n')}`}</span>
        </Show>
      </span>
      <span class="answer-notes">
        <Show when={person()}>{(name) => <span>{name()}</span>}</Show>
        <Show when={line()?.late}>
          <span class="late">{t('loggedLate', { delay: showMinutes(t, line()?.delayMinutes ?? 0) })}</span>
        </Show>
        <StateMark where={own.whereIs(props.hash)} />
      </span>
    </button>
  )
}

/** All answers that stand to a question with one answer. Several are a conflict: all are shown, and it can be settled. */
export const Answers = <T,>(props: { fact: readonly Said<T>[]; show: (said: Said<T>) => string }) => {
  const { t } = usePhone()
  const job = useJob()
  const said = (hash: string) => props.fact.find((s) => s.hash === hash)
  const hashes = () => props.fact.map((s) => s.hash)
  return (
    <div classList={{ conflict: props.fact.length > 1 }}>
      <Show when={props.fact.length > 1}>
        <p class="conflict-head">⚠ {t('severalAnswers', { count: props.fact.length })}</p>
      </Show>
      <For each={hashes()}>
        {(hash) => {
          const value = () => {
            const one = said(hash)
            return one ? props.show(one) : ''
          }
          return (
            <>
              <Answer hash={hash} value={value()} />
              <Show when={props.fact.length > 1}>
                <button
                  type="button"
                  class="second"
                  onClick={() => job.setOver({ is: 'correct', hash, corrects: hashes() })}
                >
                  {t('settleFrom', { value: value() })}
                </button>
              </Show>
            </>
          )
        }}
      </For>
    </div>
  )
}
