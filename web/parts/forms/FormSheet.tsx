import { Match, Show, Switch } from 'solid-js'
import type { Entry, EntryOf } from '../../../api/domain/entry/envelope.ts'
import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { Draft } from '../../state/draft.ts'
import { type Over, useJob, type Why } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { kindWord } from '../../state/show.ts'
import { readSlumpText } from '../../state/slump-text.ts'
import { Sheet } from '../Sheet.tsx'
import { JobForm } from './JobForm.tsx'
import { OrderForm } from './OrderForm.tsx'
import { PhotoForm } from './PhotoForm.tsx'
import { RemarkForm } from './RemarkForm.tsx'
import { SlumpForm } from './SlumpForm.tsx'
import { StampForm } from './StampForm.tsx'
import { ShapeForm } from './shape/ShapeForm.tsx'
import { STAMP_KINDS, type StampKind } from './stamp-kinds.ts'
import { TicketForm } from './TicketForm.tsx'
import { WaterForm } from './WaterForm.tsx'

export type FormOver = Over & { readonly is: 'new' | 'correct' }

/** One form for each kind, the same for a new entry and for a correction: by hand where that is quicker, else the general one. */
export const FormSheet = (props: { over: FormOver }) => {
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
  const saveMore =
    <K extends Kind>(of: K) =>
    (draft: Draft<K>) =>
      job.log(of, draft)
  const byHand = initial === undefined || canBeShownByHand(initial)
  return (
    <Show when={kind} keyed>
      {(of) => (
        <Sheet
          title={over.is === 'correct' ? `${t('correct')}: ${kindWord(t, of)}` : kindWord(t, of)}
          onClose={close}
        >
          <Switch
            fallback={
              <ShapeForm
                kind={of}
                initial={initial as EntryOf<Kind> | undefined}
                load={load}
                given={over.is === 'new' ? over.given : undefined}
                onSave={save(of)}
                onSaveMore={saveMore(of)}
              />
            }
          >
            <Match when={byHand && of === 'ticket.recorded' && load}>
              {(id) => (
                <TicketForm initial={as('ticket.recorded')} load={id()} onSave={save('ticket.recorded')} />
              )}
            </Match>
            <Match when={of === 'water.added' && load}>
              {(id) => <WaterForm initial={as('water.added')} load={id()} onSave={save('water.added')} />}
            </Match>
            <Match when={byHand && of === 'slump.measured' && load}>
              {(id) => (
                <SlumpForm initial={as('slump.measured')} load={id()} onSave={save('slump.measured')} />
              )}
            </Match>
            <Match when={isStamp(of) && load}>
              {(id) => (
                <StampForm
                  kind={of as StampKind}
                  initial={as(of as StampKind)}
                  load={id()}
                  onSave={save(of as StampKind)}
                />
              )}
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

const isStamp = (kind: Kind): boolean => STAMP_KINDS.some((stamp) => stamp === kind)

/** The forms made by hand ask in one unit alone; what was logged in another is corrected in the general form. */
const canBeShownByHand = (entry: Entry): boolean => {
  if (entry.kind === 'ticket.recorded')
    return entry.body.yards.is !== 'given' || entry.body.yards.unit === 'yd3'
  if (entry.kind !== 'slump.measured' || entry.body.slump.is !== 'given') return true
  return entry.body.slump.unit === 'in' && readSlumpText(entry.body.slump.text).whole !== undefined
}

const loadOf = (entry: Entry | undefined): string | undefined =>
  entry && 'load' in entry.body ? entry.body.load : undefined
