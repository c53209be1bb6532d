import { createSignal } from 'solid-js'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { askStamp } from '../../state/pour/odd-time.ts'
import { WhenField } from '../WhenField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import type { StampKind } from './stamp-kinds.ts'

/** A moment that nobody tapped when it came, or one that was tapped wrong. */
export const StampForm = <K extends StampKind>(props: FormProps<K> & { kind: K; load: string }) => {
  const { t, world } = usePhone()
  const job = useJob()
  const kept = props.initial?.occurredAt
  const [when, setWhen] = createSignal<When>({ is: 'at', text: '', half: undefined })
  const [tried, setTried] = createSignal(false)
  const at = () => readWhen(when(), world.now(), job.zone(), kept)
  const asks = () => askStamp(t, props.kind, at(), job.load(props.load))
  const ready = (): Draft<StampKind> | undefined => {
    const occurredAt = at()
    return occurredAt ? { body: { load: props.load }, occurredAt, source: 'tap' } : undefined
  }
  return (
    <FormFrame form={props as FormProps<StampKind>} draft={ready} asks={asks()} onOpen={() => setTried(true)}>
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}
