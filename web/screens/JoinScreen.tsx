import { createSignal, Match, Show, Switch } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { CodeRefused } from '../parts/CodeRefused.tsx'
import { SaveButton } from '../parts/SaveButton.tsx'
import { join, lookAtJoin } from '../state/enrol.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'

/** A further device of somebody who is in the company already: shows for whom the code was made before it is used. */
export const JoinScreen = (props: { code: string }) => {
  const { t, world, keep, go, sync } = usePhone()
  const look = createLater(
    () => props.code,
    (code) => lookAtJoin(world, code),
  )
  const [problem, setProblem] = createSignal<LabelKey>()
  const joinNow = async () => {
    const done = await keep(() => join(world, props.code))
    if (!done) return
    if (!done.ok) {
      setProblem(done.says)
      return
    }
    go('/')
    sync.ask()
  }
  const meant = () => {
    const now = look.value()
    return now?.ok ? now.value : undefined
  }
  const refused = () => {
    const now = look.value()
    return now && !now.ok ? now.says : undefined
  }
  return (
    <main>
      <h1 class="board">{t('joinTitle')}</h1>
      <Switch fallback={<p role="status">{t('waiting')}</p>}>
        <Match when={props.code === ''}>
          <p role="alert">⚠ {t('linkWithoutCode')}</p>
        </Match>
        <Match when={problem()}>{(says) => <p role="alert">⚠ {t(says(), { at: '' })}</p>}</Match>
        <Match when={refused()}>
          {(says) => <CodeRefused says={says()} onRetry={() => void joinNow()} />}
        </Match>
        <Match when={meant()}>
          {(for_) => (
            <>
              <dl class="facts">
                <div>
                  <dt>{t('company')}</dt>
                  <dd>{for_().company}</dd>
                </div>
                <div>
                  <dt>{t('person')}</dt>
                  <dd>{for_().person}</dd>
                </div>
              </dl>
              <p>{t('joinHelp')}</p>
              <Show when={for_().use === 'shared'}>
                <p>{t('joinShared', { name: for_().person })}</p>
              </Show>
              <div class="form-end">
                <SaveButton onSave={joinNow} label={t('joinDo')} />
              </div>
            </>
          )}
        </Match>
      </Switch>
    </main>
  )
}
