import { For, Match, Show, Switch } from 'solid-js'
import { jobSlipAnswer } from '../../api/contract/messages/slip.ts'
import { PROBLEMS } from '../../api/contract/problems.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'
import { ask, readAnswer } from '../sync/answer.ts'
import { WireDown } from '../sync/wire.ts'
import { Qr } from './Qr.tsx'
import { Sheet } from './Sheet.tsx'

/** A witness slip of the job as of now: a QR to keep, and its eight words to read aloud. */
export const SlipSheet = (props: { job: string; onClose: () => void }) => {
  const { t, world, own } = usePhone()
  const slip = createLater(
    () => props.job,
    async (job): Promise<{ slip: string; words: string[] } | { says: LabelKey }> => {
      try {
        const answer = readAnswer(
          await ask(world, { method: 'GET', path: `/api/jobs/${job}/slip` }),
          jobSlipAnswer,
        )
        return answer.ok ? answer.value : { says: PROBLEMS[answer.refused.code].says }
      } catch (error) {
        if (error instanceof WireDown) return { says: 'needsNetwork' }
        throw error
      }
    },
  )
  const given = () => {
    const now = slip.value()
    return now && 'slip' in now ? now : undefined
  }
  const refused = () => {
    const now = slip.value()
    return now && 'says' in now ? now.says : undefined
  }
  return (
    <Sheet title={t('slip')} onClose={props.onClose}>
      <Switch fallback={<p role="status">{t('waiting')}</p>}>
        <Match when={given()}>
          {(is) => (
            <>
              <p>{t('slipHelp')}</p>
              <Show when={own.waiting() > 0}>
                <p class="odd">⚠ {t('slipWithout', { count: own.waiting() })}</p>
              </Show>
              <Qr text={is().slip} label={t('slipQr')} />
              <ol class="slip-words" lang="en" translate="no">
                <For each={is().words}>{(word) => <li>{word}</li>}</For>
              </ol>
              <p class="small">{t('slipLimits')}</p>
            </>
          )}
        </Match>
        <Match when={refused()}>{(says) => <p role="alert">⚠ {t(says())}</p>}</Match>
      </Switch>
    </Sheet>
  )
}
