import { For } from 'solid-js'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { Answer } from './Answer.tsx'
import { BlockHead } from './BlockHead.tsx'
import { createLatest, Earlier } from './Earlier.tsx'

/** Remarks that are shown before somebody asks for all. */
const MOST = 6

/** Remarks on a load, or on the job where no load is given. */
export const RemarkBlock = (props: { load?: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const remarks = () => (props.load ? job.load(props.load)?.remarks : job.view().remarks) ?? []
  const latest = createLatest(() => remarks().map((s) => s.hash), MOST)
  return (
    <fieldset class="block" aria-label={t('remark')}>
      <BlockHead ofLoad={props.load !== undefined}>{t('remarks')}</BlockHead>
      <Earlier of={latest} />
      <For each={latest.shown()}>
        {(hash) => <Answer hash={hash} value={remarks().find((s) => s.hash === hash)?.value ?? ''} />}
      </For>
      <button
        type="button"
        onClick={() =>
          job.setOver({ is: 'new', kind: 'remark.made', ...(props.load ? { load: props.load } : {}) })
        }
      >
        {t('addRemark')}
      </button>
    </fieldset>
  )
}
