import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showValue } from '../state/show.ts'
import { Sheet } from './Sheet.tsx'
import { WhyField } from './WhyField.tsx'

/** Takes an entry back by a further entry. Nothing is deleted: both stay in the log, with the reason. */
export const TakeBackSheet = (props: { hash: string }) => {
  const { t, language } = usePhone()
  const job = useJob()
  const entry = () => job.line(props.hash)?.entry
  const value = () => {
    const is = entry()
    return is ? `${kindWord(t, is.kind)} · ${showValue(t, is, job.names(t))}` : ''
  }
  const takeBack = async (text: string) => {
    const draft = { body: {}, occurredAt: job.localNow(), source: 'tap' } as const
    const done = await job.log('entry.withdrawn', draft, {
      corrects: [props.hash],
      why: { lang: language(), text },
    })
    if (done) job.setOver(undefined)
  }
  return (
    <Sheet title={t('takeBack')} onClose={() => job.setOver(undefined)}>
      <p class="entry-value">{value()}</p>
      <p>{t('takeBackHelp')}</p>
      <WhyField legend={t('whyTouchTakesBack')} ownWords={t('takeBack')} onWhy={takeBack} />
    </Sheet>
  )
}
