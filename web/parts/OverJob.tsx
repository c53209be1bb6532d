import { Match, Show, Switch } from 'solid-js'
import type { Entry, EntryOf } from '../../api/domain/entry/envelope.ts'
import type { Kind } from '../../api/domain/entry/registry.ts'
import type { Draft } from '../state/draft.ts'
import { type Over, useJob, type Why } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord } from '../state/show.ts'
import { EntrySheet } from './EntrySheet.tsx'
import { JobForm } from './forms/JobForm.tsx'
import { OrderForm } from './forms/OrderForm.tsx'
import { PhotoForm } from './forms/PhotoForm.tsx'
import { RemarkForm } from './forms/RemarkForm.tsx'
import { SlumpForm } from './forms/SlumpForm.tsx'
import { StampForm, type StampKind } from './forms/StampForm.tsx'
import { TicketForm } from './forms/TicketForm.tsx'
import { WaterForm } from './forms/WaterForm.tsx'
import { Sheet } from './Sheet.tsx'
import { SlipSheet } from './SlipSheet.tsx'
import { TakeBackSheet } from './TakeBackSheet.tsx'

type FormOver = Over & { readonly is: 'new' | 'correct' }

/** Whatever lies over the job's screen: one form for each kind, the same for a new entry and for a correction. */
export const OverJob = () => {
  const job = useJob()
  const at = <I extends Over['is']>(is: I) => {
    const over = job.over()
    return over?.is === is ? (over as Over & { is: I }) : undefined
  }
  const formOver = (): FormOver | undefined => at('new') ?? at('correct')
  return (
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
      <Match when={formOver()} keyed>
        {(over) => <FormSheet over={over} />}
      </Match>
    </Switch>
  )
}

const FormSheet = (props: { over: FormOver }) => {
  const { t } = usePhone()
  const job = useJob()
  const { over } = props
  const initial: Entry | undefined = over.is === 'correct' ? job.line(over.hash)?.entry : undefined
  const kind: Kind | undefined = over.is === 'new' ? over.kind : initial?.kind
  const load = over.is === 'new' ? over.load : loadOf(initial)
  const close = () => job.setOver(undefined)
  const save =
    <K extends Kind>(of: K) =>
    async (draft: Draft<K>, why: Why | undefined) => {
      const correction = over.is === 'correct' && why ? { corrects: over.corrects, why } : undefined
      if (await job.log(of, draft, correction)) close()
    }
  const as = <K extends Kind>(of: K) => (initial?.kind === of ? (initial as EntryOf<K>) : undefined)
  return (
    <Show when={kind} keyed>
      {(of) => (
        <Sheet
          title={over.is === 'correct' ? `${t('correct')}: ${kindWord(t, of)}` : kindWord(t, of)}
          onClose={close}
        >
          <Switch>
            <Match when={of === 'ticket.recorded' && load}>
              {(id) => (
                <TicketForm initial={as('ticket.recorded')} load={id()} onSave={save('ticket.recorded')} />
              )}
            </Match>
            <Match when={of === 'water.added' && load}>
              {(id) => <WaterForm initial={as('water.added')} load={id()} onSave={save('water.added')} />}
            </Match>
            <Match when={of === 'slump.measured' && load}>
              {(id) => (
                <SlumpForm initial={as('slump.measured')} load={id()} onSave={save('slump.measured')} />
              )}
            </Match>
            <Match when={isStamp(of) && load}>
              {(id) => <StampForm initial={as(of as StampKind)} load={id()} onSave={save(of as StampKind)} />}
            </Match>
            <Match when={of === 'concrete.ordered'}>
              <OrderForm initial={as('concrete.ordered')} onSave={save('concrete.ordered')} />
            </Match>
            <Match when={of === 'remark.made'}>
              <RemarkForm initial={as('remark.made')} load={load} onSave={save('remark.made')} />
            </Match>
            <Match when={of === 'job.opened'}>
              <JobForm initial={as('job.opened')} onSave={save('job.opened')} />
            </Match>
            <Match when={as('photo.taken')}>
              {(photo) => <PhotoForm initial={photo()} onSave={save('photo.taken')} />}
            </Match>
          </Switch>
        </Sheet>
      )}
    </Show>
  )
}

const STAMP_KINDS = new Set<Kind>(['load.arrived', 'discharge.started', 'discharge.ended', 'load.left'])
const isStamp = (kind: Kind): boolean => STAMP_KINDS.has(kind)

const loadOf = (entry: Entry | undefined): string | undefined =>
  entry && 'load' in entry.body ? entry.body.load : undefined
