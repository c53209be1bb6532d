import { For } from 'solid-js'
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
    <section class="block" aria-label={t('slump')}>
      <h4>{t('slump')}</h4>
      <For each={slump().map((s) => s.hash)}>
        {(hash) => {
          const value = () => {
            const one = slump().find((s) => s.hash === hash)
            return one ? `${showSlump(t, one.value)} · ${showTime(one.at, job.localNow())}` : ''
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
    </section>
  )
}
