import { createSignal } from 'solid-js'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { WhenField } from '../WhenField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import type { StampKind } from './stamp-kinds.ts'

/** A moment that nobody tapped when it came, or one that was tapped wrong. */
export const StampForm = <K extends StampKind>(props: FormProps<K> & { load: string }) => {
  const { world } = usePhone()
  const job = useJob()
  const kept = props.initial?.occurredAt
  const [when, setWhen] = createSignal<When>({ is: 'at', text: '', half: undefined })
  const [tried, setTried] = createSignal(false)
  const ready = (): Draft<StampKind> | undefined => {
    const occurredAt = readWhen(when(), world.now(), job.zone(), kept)
    return occurredAt ? { body: { load: props.load }, occurredAt, source: 'tap' } : undefined
  }
  return (
    <FormFrame form={props as FormProps<StampKind>} draft={ready} onOpen={() => setTried(true)}>
      <WhenField when={when()} onChange={setWhen} kept={kept} tried={tried()} />
    </FormFrame>
  )
}
