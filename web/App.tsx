import { createEffect, ErrorBoundary, lazy, Match, Show, Suspense, Switch } from 'solid-js'
import { NewerAppOpen } from './device/database.ts'
import { Alarm } from './parts/Alarm.tsx'
import { DemoStrip } from './parts/DemoStrip.tsx'
import { LanguageSwitch } from './parts/LanguageSwitch.tsx'
import { SyncStrip } from './parts/SyncStrip.tsx'
import { UpdateNote } from './parts/UpdateNote.tsx'
import { WhoBar } from './parts/WhoBar.tsx'
import { WhoSheet } from './parts/WhoSheet.tsx'
import type { Dictionary } from './state/language.ts'
import { createPhone, PhoneContext, usePhone } from './state/phone.ts'
import type { Route } from './state/route.ts'

const JobScreen = lazy(async () => ({ default: (await import('./screens/JobScreen.tsx')).JobScreen }))
const JobsScreen = lazy(async () => ({ default: (await import('./screens/JobsScreen.tsx')).JobsScreen }))
const SetUpScreen = lazy(async () => ({ default: (await import('./screens/SetUpScreen.tsx')).SetUpScreen }))
const JoinScreen = lazy(async () => ({ default: (await import('./screens/JoinScreen.tsx')).JoinScreen }))
const PeopleScreen = lazy(async () => ({
  default: (await import('./screens/PeopleScreen.tsx')).PeopleScreen,
}))
const OfficeScreen = lazy(async () => ({
  default: (await import('./screens/OfficeScreen.tsx')).OfficeScreen,
}))

export const App = (props: { dictionary: Dictionary }) => {
  const phone = createPhone(props.dictionary)
  return (
    <PhoneContext.Provider value={phone}>
      <Frame />
    </PhoneContext.Provider>
  )
}

const Frame = () => {
  const { t, snapshot, identity, failure, who } = usePhone()
  createEffect(() => {
    document.title = t('appName')
  })
  return (
    <ErrorBoundary fallback={(error: unknown) => <Broken error={error} />}>
      <Show
        when={identity()}
        fallback={
          <header class="top">
            <DemoStrip />
            <LanguageSwitch />
          </header>
        }
      >
        <SyncStrip />
        <WhoBar />
        <Show when={who.isAsking()}>
          <WhoSheet />
        </Show>
      </Show>
      <Alarm />
      <UpdateNote />
      <Show when={failure()}>{(error) => <Broken error={error()} />}</Show>
      <Show when={snapshot()} fallback={<p role="status">{t('waiting')}</p>}>
        <Suspense fallback={<p role="status">{t('waiting')}</p>}>
          <Screen />
        </Suspense>
      </Show>
    </ErrorBoundary>
  )
}

const Screen = () => {
  const { t, route, identity } = usePhone()
  const at = <I extends Route['is']>(is: I) => {
    const here = route()
    return here.is === is ? (here as Route & { is: I }) : undefined
  }
  return (
    <Switch fallback={<Lost says={t('nothingHere')} />}>
      <Match when={!identity() && at('set-up')}>{(here) => <SetUpScreen code={here().code} />}</Match>
      <Match when={!identity() && at('join')}>{(here) => <JoinScreen code={here().code} />}</Match>
      <Match when={!identity()}>
        <Lost says={t('notJoined')} />
      </Match>
      <Match when={at('set-up') ?? at('join')}>
        <Lost says={t('alreadyJoined', { name: identity()?.name ?? '' })} />
      </Match>
      <Match when={at('jobs')}>
        <JobsScreen />
      </Match>
      <Match when={at('job')?.job} keyed>
        {(job) => <JobScreen job={job} />}
      </Match>
      <Match when={at('people')}>
        <PeopleScreen />
      </Match>
      <Match when={at('office')}>
        <OfficeScreen />
      </Match>
    </Switch>
  )
}

const Lost = (props: { says: string }) => {
  const { t, identity } = usePhone()
  return (
    <main>
      <h1 class="board">{t('appName')}</h1>
      <p>{props.says}</p>
      <Show when={identity()}>
        <a class="button" href="/">
          {t('jobs')}
        </a>
      </Show>
    </main>
  )
}

/** Something failed that should not: said in full, since what is on the phone is still there and must not be cleared. */
const Broken = (props: { error: unknown }) => {
  const { t } = usePhone()
  return (
    <div class="alarm" role="alert">
      <strong>{t(props.error instanceof NewerAppOpen ? 'newerAppOpen' : 'broken')}</strong>
      <p>{t('brokenHelp')}</p>
      <p class="small">{String(props.error)}</p>
      <button type="button" onClick={() => location.reload()}>
        {t('reload')}
      </button>
    </div>
  )
}
