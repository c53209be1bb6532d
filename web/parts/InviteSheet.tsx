import { createSignal, Match, Show, Switch } from 'solid-js'
import { invited } from '../../api/contract/messages/enrol.ts'
import { PROBLEMS } from '../../api/contract/problems.ts'
import { clockOf, dayOf, toLocalTime } from '../../api/domain/time.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { deviceZone } from '../device/clock.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'
import { ask, readAnswer } from '../sync/answer.ts'
import { jsonBody } from '../sync/sign-in.ts'
import { WireDown } from '../sync/wire.ts'
import { Choice } from './Choice.tsx'
import { Qr } from './Qr.tsx'
import { Sheet } from './Sheet.tsx'

type Code = { readonly link: string; readonly expires: string } | { readonly says: LabelKey }

/** A one-time code by which somebody's further device joins: to scan, or to send as a link. */
export const InviteSheet = (props: { person: string; onClose: () => void }) => {
  const { t, world, jobs } = usePhone()
  const [use, setUse] = createSignal<'phone' | 'office' | 'shared'>()
  const code = createLater(use, async (use): Promise<Code> => {
    try {
      const request = {
        method: 'POST',
        path: '/api/invite',
        ...jsonBody({ person: props.person, use }),
      } as const
      const answer = readAnswer(await ask(world, request), invited)
      if (!answer.ok) return { says: PROBLEMS[answer.refused.code].says }
      const at = toLocalTime(answer.value.expiresAt, deviceZone())
      return { link: `${location.origin}${answer.value.path}`, expires: `${dayOf(at)} ${clockOf(at)}` }
    } catch (error) {
      if (error instanceof WireDown) return { says: 'needsNetwork' }
      throw error
    }
  })
  const given = () => {
    const now = code.value()
    return now && 'link' in now ? now : undefined
  }
  const refused = () => {
    const now = code.value()
    return now && 'says' in now ? now.says : undefined
  }
  return (
    <Sheet title={t('joinCodeFor', { name: jobs.nameOf(props.person) ?? '' })} onClose={props.onClose}>
      <Show when={!use()}>
        <Choice
          legend={t('whatDevice')}
          options={[
            { value: 'phone', label: t('devicePhone') },
            { value: 'shared', label: t('deviceShared') },
            { value: 'office', label: t('deviceOffice') },
          ]}
          value={use()}
          onPick={setUse}
        />
      </Show>
      <Switch>
        <Match when={given()}>
          {(is) => (
            <>
              <p>{t('joinCodeHelp')}</p>
              <Show when={use() === 'shared'}>
                <p>{t('sharedHelp')}</p>
              </Show>
              <Qr text={is().link} label={t('joinQr')} />
              <p class="link" translate="no">
                {is().link}
              </p>
              <p>{t('expires', { time: is().expires })}</p>
            </>
          )}
        </Match>
        <Match when={refused()}>{(says) => <p role="alert">⚠ {t(says(), { at: '' })}</p>}</Match>
        <Match when={use()}>
          <p role="status">{t('waiting')}</p>
        </Match>
      </Switch>
    </Sheet>
  )
}
