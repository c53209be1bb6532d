import { createSignal, For, type JSX, Show } from 'solid-js'
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

/** A last answer that logs: "cone" and "by eye" are each a button, so that none of them has to be chosen first. */
export type Ending<K extends Kind> = {
  readonly label: string
  readonly draft: () => Draft<K> | undefined
  readonly second?: boolean
}

/**
 * The end of each form: what logs it. For a correction that is the reason: a touch on one logs. Where an answer is open it
 * says so, and the fields are marked.
 */
export const FormFrame = <K extends Kind>(props: {
  form: FormProps<K>
  /** The draft, or undefined while something is open. */
  draft: () => Draft<K> | undefined
  /** What logs a new entry, instead of "save". */
  endings?: readonly Ending<K>[] | undefined
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
  const [open, setOpen] = createSignal(false)
  const correcting = () => props.form.initial !== undefined
  const [asked, setAsked] = createSignal<string>()
  const isAsked = () => Boolean(props.asks) && asked() === props.asks
  /** The draft, if nothing is open and nothing is to be looked at once more. */
  const complete = (read: () => Draft<K> | undefined): Draft<K> | undefined => {
    const draft = read()
    setOpen(!draft)
    if (!draft) {
      props.onOpen()
      return undefined
    }
    if (props.asks && !isAsked()) {
      setAsked(props.asks)
      props.onOpen()
      return undefined
    }
    return draft
  }
  const saveMore = async () => {
    const draft = complete(props.draft)
    if (!draft || !(await props.form.onSaveMore?.(draft))) return
    setAsked(undefined)
    props.onAnother?.(draft)
  }
  const save = async (read: () => Draft<K> | undefined) => {
    const draft = complete(read)
    if (draft) await props.form.onSave(draft, undefined)
  }
  const correct = async (why: string) => {
    const draft = complete(props.draft)
    if (draft) await props.form.onSave(draft, { lang: language(), text: why })
  }
  const endings = (): readonly Ending<K>[] => props.endings ?? [{ label: t('save'), draft: props.draft }]
  return (
    <form onSubmit={(event) => event.preventDefault()}>
      {props.children}
      <Show when={open() && (!props.draft() || (props.endings && !correcting()))}>
        <p class="field-wrong" role="status">
          ⚠ {props.says ?? t('answerMarked')}
        </p>
      </Show>
      <Show when={isAsked() && props.draft()}>
        <p class="unusual" role="status">
          ⚠ {props.asks}
        </p>
      </Show>
      <Show
        when={correcting()}
        fallback={
          <div class="form-end foot">
            <For each={endings().map((_, i) => i)}>
              {(i) => (
                <SaveButton
                  onSave={() => save(endings()[i]!.draft)}
                  label={endings()[i]!.label}
                  second={endings()[i]!.second ?? false}
                />
              )}
            </For>
            <Show when={props.form.onSaveMore && props.onAnother}>
              <SaveButton second onSave={saveMore} label={t('saveAndAnother')} />
            </Show>
          </div>
        }
      >
        <WhyField legend={t('whyTouchLogs')} ownWords={t('saveCorrection')} onWhy={correct} />
      </Show>
    </form>
  )
}
