import { createSignal, type JSX, Show } from 'solid-js'
import type { EntryOf } from '../../../api/domain/entry/envelope.ts'
import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { Draft } from '../../state/draft.ts'
import type { Why } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { SaveButton } from '../SaveButton.tsx'
import { WhyField } from '../WhyField.tsx'

/** What every form of an entry is given. `initial` is there where it corrects an entry. */
export type FormProps<K extends Kind> = {
  readonly initial?: EntryOf<K> | undefined
  readonly onSave: (draft: Draft<K>, why: Why | undefined) => Promise<unknown>
  /** Logs it and leaves the form open for another one. True once it is kept. */
  readonly onSaveMore?: ((draft: Draft<K>) => Promise<boolean>) | undefined
}

/**
 * The end of each form: the reason, where it is a correction, and the button. Where an answer is open it says so, and
 * the fields are marked.
 */
export const FormFrame = <K extends Kind>(props: {
  form: FormProps<K>
  /** The draft, or undefined while something is open. */
  draft: () => Draft<K> | undefined
  onOpen: () => void
  /** Why there is no draft, where it is not that an answer is open. */
  says?: string | undefined
  /** A value that is plainly unusual: asked once, and logged as it is when saved again. */
  asks?: string | undefined
  /** Makes the form ready for another one, once this one is kept. */
  onAnother?: ((draft: Draft<K>) => void) | undefined
  children: JSX.Element
}) => {
  const { t, language } = usePhone()
  const [why, setWhy] = createSignal('')
  const [tried, setTried] = createSignal(false)
  const correcting = () => props.form.initial !== undefined
  const [asked, setAsked] = createSignal<string>()
  const isAsked = () => props.asks !== undefined && asked() === props.asks
  /** The draft, if nothing is open and nothing is to be looked at once more. */
  const complete = (): Draft<K> | undefined => {
    const draft = props.draft()
    if (!draft || (correcting() && why().trim() === '')) {
      setTried(true)
      props.onOpen()
      return undefined
    }
    if (props.asks !== undefined && !isAsked()) {
      setAsked(props.asks)
      props.onOpen()
      return undefined
    }
    return draft
  }
  const saveMore = async () => {
    const draft = complete()
    if (!draft || !(await props.form.onSaveMore?.(draft))) return
    setTried(false)
    setAsked(undefined)
    props.onAnother?.(draft)
  }
  const save = async () => {
    const draft = complete()
    if (!draft) return
    const reason = why().trim()
    await props.form.onSave(draft, correcting() ? { lang: language(), text: reason } : undefined)
  }
  return (
    <form onSubmit={(event) => event.preventDefault()}>
      {props.children}
      <Show when={correcting()}>
        <WhyField value={why()} onInput={setWhy} open={tried() && why().trim() === ''} />
      </Show>
      <Show when={tried() && (!props.draft() || (correcting() && why().trim() === ''))}>
        <p class="field-wrong" role="status">
          ⚠ {props.says ?? t('answerMarked')}
        </p>
      </Show>
      <Show when={isAsked() && props.draft()}>
        <p class="unusual" role="status">
          ⚠ {props.asks}
        </p>
      </Show>
      <div class="form-end">
        <SaveButton onSave={save} label={t(correcting() ? 'saveCorrection' : 'save')} />
        <Show when={!correcting() && props.form.onSaveMore && props.onAnother}>
          <SaveButton second onSave={saveMore} label={t('saveAndAnother')} />
        </Show>
      </div>
    </form>
  )
}
