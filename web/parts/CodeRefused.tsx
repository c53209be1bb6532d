import { Show } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'

/**
 * A code that will not do. Where this very phone spent it and the answer was lost on its way, the server knows the phone
 * by its key and gives the same answer again.
 */
export const CodeRefused = (props: { says: LabelKey; onRetry: () => void }) => {
  const { t } = usePhone()
  return (
    <>
      <p role="alert">⚠ {t(props.says, { at: '' })}</p>
      <Show when={props.says === 'problemCodeUsed'}>
        <button type="button" onClick={() => props.onRetry()}>
          {t('codeWasMine')}
        </button>
      </Show>
    </>
  )
}
