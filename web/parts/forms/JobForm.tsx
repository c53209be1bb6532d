import { createSignal } from 'solid-js'
import { isZone } from '../../../api/domain/time.ts'
import type { Draft } from '../../state/draft.ts'
import { usePhone } from '../../state/phone.ts'
import { TextField } from '../TextField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'

/** A job's name, and the time zone of its site: the company's own, unless the site lies in another. */
export const JobForm = (props: FormProps<'job.opened'>) => {
  const { t, identity, localNow } = usePhone()
  const before = props.initial?.body
  const [name, setName] = createSignal(before?.name ?? '')
  const [zone, setZone] = createSignal(before?.zone ?? identity()?.zone ?? '')
  const [tried, setTried] = createSignal(false)
  const ready = (): Draft<'job.opened'> | undefined => {
    const called = name().trim()
    if (called === '' || !isZone(zone().trim())) return undefined
    const occurredAt = props.initial?.occurredAt ?? localNow(zone().trim())
    return { body: { name: called, zone: zone().trim() }, occurredAt, source: 'tap' }
  }
  return (
    <FormFrame form={props} draft={ready} onOpen={() => setTried(true)}>
      <TextField
        label={t('jobName')}
        value={name()}
        most={120}
        onInput={setName}
        wrong={tried() && name().trim() === '' ? t('stillOpen') : undefined}
      />
      <TextField
        label={t('siteZone')}
        value={zone()}
        most={64}
        onInput={setZone}
        wrong={tried() && !isZone(zone().trim()) ? t('zoneUnknown') : undefined}
      />
    </FormFrame>
  )
}
