import { For } from 'solid-js'
import { bodyText } from '../../api/domain/words/body-lines.ts'
import { toleranceNotes } from '../state/finding-text.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showSlump, showTime } from '../state/show.ts'
import { Answer } from './Answer.tsx'

/** Slump readings, each with its way of knowing. */
export const SlumpBlock = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const slump = () => job.load(props.load)?.slump ?? []
  return (
    <fieldset class="block" aria-label={t('slump')}>
      <h4>{t('slump')}</h4>
      <For each={slump().map((s) => s.hash)}>
        {(hash) => {
          const value = () => {
            const one = slump().find((s) => s.hash === hash)
            if (!one) return ''
            const taking = one.value.taking && bodyText(one.value.taking, t.entry(), job.names(t))
            return [
              `${showSlump(t, one.value)} · ${showTime(one.at, job.localNow())}`,
              ...toleranceNotes(t, job.loadFigures(props.load), hash),
              ...(taking ? [taking] : []),
            ].join('\n')
          }
          return <Answer hash={hash} value={value()} />
        }}
      </For>
      <button
        type="button"
        onClick={() => job.setOver({ is: 'new', kind: 'slump.measured', load: props.load })}
      >
        {t(slump().length === 0 ? 'logSlump' : 'anotherSlump')}
      </button>
    </fieldset>
  )
}
