import { createSignal, Match, Show, Switch } from 'solid-js'
import { isZone } from '../../api/domain/time.ts'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { deviceZone } from '../device/clock.ts'
import { CodeRefused } from '../parts/CodeRefused.tsx'
import { SaveButton } from '../parts/SaveButton.tsx'
import { TextField } from '../parts/TextField.tsx'
import { lookAtSetUp, setUp } from '../state/enrol.ts'
import { createLater } from '../state/later.ts'
import { usePhone } from '../state/phone.ts'

/** The first device of a company: makes the company, its owner, and this phone's key. */
export const SetUpScreen = (props: { code: string }) => {
  const { t, world, keep, go, sync } = usePhone()
  const look = createLater(
    () => props.code,
    (code) => lookAtSetUp(world, code),
  )
  const [company, setCompany] = createSignal('')
  const [owner, setOwner] = createSignal('')
  const [zone, setZone] = createSignal(deviceZone())
  const [tried, setTried] = createSignal(false)
  const [retry, setRetry] = createSignal(false)
  const [problem, setProblem] = createSignal<LabelKey>()
  const open = (text: string) => (tried() && text.trim() === '' ? t('stillOpen') : undefined)
  const found = async () => {
    const given = { code: props.code, company: company().trim(), owner: owner().trim(), zone: zone().trim() }
    if (given.company === '' || given.owner === '' || !isZone(given.zone)) {
      setTried(true)
      return
    }
    const done = await keep(() => setUp(world, given))
    if (!done) return
    if (!done.ok) {
      setProblem(done.says)
      return
    }
    go('/')
    sync.ask()
  }
  const refused = () => {
    const now = look.value()
    return now && !now.ok ? now.says : undefined
  }
  return (
    <main>
      <h1 class="board">{t('setUpTitle')}</h1>
      <Switch fallback={<p role="status">{t('waiting')}</p>}>
        <Match when={props.code === ''}>
          <p role="alert">⚠ {t('linkWithoutCode')}</p>
        </Match>
        <Match when={!retry() && refused()}>
          {(says) => <CodeRefused says={says()} onRetry={() => setRetry(true)} />}
        </Match>
        <Match when={look.value()?.ok || retry()}>
          <p>{t('setUpHelp')}</p>
          <TextField
            label={t('companyName')}
            value={company()}
            most={120}
            onInput={setCompany}
            wrong={open(company())}
          />
          <TextField label={t('ownerName')} value={owner()} onInput={setOwner} wrong={open(owner())} />
          <TextField
            label={t('companyZone')}
            value={zone()}
            most={64}
            onInput={setZone}
            wrong={tried() && !isZone(zone().trim()) ? t('zoneUnknown') : undefined}
          />
          <Show when={problem()}>{(says) => <p role="alert">⚠ {t(says(), { at: '' })}</p>}</Show>
          <div class="form-end">
            <SaveButton onSave={found} label={t('setUpDo')} />
          </div>
        </Match>
      </Switch>
    </main>
  )
}
