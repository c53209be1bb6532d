import { lazy, Match, Suspense, Switch } from 'solid-js'
import { type Over, useJob } from '../state/job-here.ts'

/** All that lies over a job's screen is one further file, fetched as soon as the screen stands. */
const sheets = () => import('./job-sheets.ts')
const EntrySheet = lazy(async () => ({ default: (await sheets()).EntrySheet }))
const TakeBackSheet = lazy(async () => ({ default: (await sheets()).TakeBackSheet }))
const FormSheet = lazy(async () => ({ default: (await sheets()).FormSheet }))
const PhotosSheet = lazy(async () => ({ default: (await sheets()).PhotosSheet }))
const QuickSheet = lazy(async () => ({ default: (await sheets()).QuickSheet }))
const ReadOutSheet = lazy(async () => ({ default: (await sheets()).ReadOutSheet }))
const BlanksSheet = lazy(async () => ({ default: (await sheets()).BlanksSheet }))
const SlipSheet = lazy(async () => ({ default: (await sheets()).SlipSheet }))

/** Whatever lies over the job's screen: a form, an entry, a slip. The screen under it never waits for it. */
export const OverJob = () => {
  const job = useJob()
  void sheets()
  const at = <I extends Over['is']>(is: I) => {
    const over = job.over()
    return over?.is === is ? (over as Over & { is: I }) : undefined
  }
  return (
    <Suspense>
      <Switch>
        <Match when={at('entry')} keyed>
          {(over) => <EntrySheet hash={over.hash} />}
        </Match>
        <Match when={at('take-back')} keyed>
          {(over) => <TakeBackSheet hash={over.hash} />}
        </Match>
        <Match when={at('slip')}>
          <SlipSheet job={job.job} onClose={() => job.setOver(undefined)} />
        </Match>
        <Match when={at('photos')} keyed>
          {(over) => <PhotosSheet load={over.load} />}
        </Match>
        <Match when={at('quick')} keyed>
          {(over) => <QuickSheet ask={over.ask} load={over.load} />}
        </Match>
        <Match when={at('read-out')} keyed>
          {(over) => <ReadOutSheet load={over.load} />}
        </Match>
        <Match when={at('blanks')}>
          <BlanksSheet />
        </Match>
        <Match when={at('new') ?? at('correct')} keyed>
          {(over) => <FormSheet over={over} />}
        </Match>
      </Switch>
    </Suspense>
  )
}
