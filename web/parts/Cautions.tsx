import { For } from 'solid-js'
import type { LabelKey } from '../../api/domain/words/labels.ts'
import { usePhone } from '../state/phone.ts'

/** Short lines where the work can hurt. The tool adds nothing of its own to codes and licensed people. */
export const Cautions = (props: { of: readonly LabelKey[] }) => {
  const { t } = usePhone()
  return (
    <div class="cautions" role="note" aria-label={t('caution')}>
      <For each={props.of}>
        {(key) => (
          <p>
            <span aria-hidden="true">⚠</span> {t(key)}
          </p>
        )}
      </For>
    </div>
  )
}
