import { createSignal } from 'solid-js'
import { readLocalTime } from '../../../api/domain/time.ts'
import {
  type Draft,
  EMPTY_TICKET,
  readBatched,
  readTicket,
  type TicketDraft,
  ticketDraftOf,
} from '../../state/draft.ts'
import { EXAMPLES, type Mark, ticketMark } from '../../state/field-mark.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { askBatched } from '../../state/pour/odd-time.ts'
import { showUnit } from '../../state/show.ts'
import { Choice } from '../Choice.tsx'
import { HalfChoice } from '../HalfChoice.tsx'
import { ReadAs } from '../ReadAs.tsx'
import { StatedField } from '../StatedField.tsx'
import { FormFrame, type FormProps } from './FormFrame.tsx'
import { createMore, MoreFields } from './shape/more.tsx'
import { TicketPhoto } from './TicketPhoto.tsx'

const BY_HAND = ['number', 'truck', 'yards', 'batchedAt', 'limit']

/** What the ticket says, field by field. Each is filled in or said to be not on it; none has a value beforehand. */
export const TicketForm = (props: FormProps<'ticket.recorded'> & { load: string }) => {
  const { t, world } = usePhone()
  const job = useJob()
  const start = props.initial ? ticketDraftOf(props.initial.body) : EMPTY_TICKET
  const [draft, setDraft] = createSignal<TicketDraft>(start)
  const [tried, setTried] = createSignal(false)
  const more = createMore('ticket.recorded', BY_HAND, props.initial?.body)
  const near = (): number => {
    const arrived = job.load(props.load)?.arrived[0]?.value
    return (arrived && readLocalTime(arrived)) || world.now()
  }
  const read = () => readTicket(draft(), props.load, { near: near(), zone: job.zone() })
  const batchedAt = () => {
    const time = readBatched(draft().batched, { near: near(), zone: job.zone() })
    return time?.is === 'given' ? time.at : undefined
  }
  const markOf = (field: keyof TicketDraft): Mark | undefined => {
    const now = read()
    return tried() && 'open' in now && now.open.includes(field) ? ticketMark(draft(), field) : undefined
  }
  const ready = (): Draft<'ticket.recorded'> | undefined => {
    const now = read()
    const rest = more.members()
    if ('open' in now || !rest) return undefined
    // To the second as it was logged, while its digits are left alone.
    const logged = draft().batched === start.batched ? props.initial?.body.batchedAt : undefined
    const body = { ...rest, ...now.ticket, ...(logged ? { batchedAt: logged } : {}) }
    return { body, occurredAt: props.initial?.occurredAt ?? job.localNow(), source: 'tap' }
  }
  const change = (part: Partial<TicketDraft>) => setDraft({ ...draft(), ...part })
  return (
    <FormFrame
      form={props}
      draft={ready}
      asks={askBatched(t, batchedAt(), job.load(props.load))}
      onOpen={() => setTried(true)}
    >
      <TicketPhoto load={props.load} />
      <StatedField
        first={!props.initial}
        label={t('ticketNumber')}
        stated={draft().number}
        keys="numeric"
        mark={markOf('number')}
        example={EXAMPLES.number}
        onChange={(number) => change({ number })}
      />
      <StatedField
        label={t('truck')}
        stated={draft().truck}
        keys="numeric"
        mark={markOf('truck')}
        example={EXAMPLES.truck}
        onChange={(truck) => change({ truck })}
      />
      <StatedField
        label={t('yardsOnTicket')}
        unit={showUnit(t, 'yd3')}
        keys="decimal"
        stated={draft().yards}
        mark={markOf('yards')}
        example={EXAMPLES.yards}
        onChange={(yards) => change({ yards })}
      >
        <ReadAs text={draft().yards.text} unit={showUnit(t, 'yd3')} />
      </StatedField>
      <StatedField
        label={t('batchedAtClock')}
        stated={draft().batched}
        keys="numeric"
        mark={markOf('batched')}
        example={EXAMPLES.clock}
        onChange={(batched) => change({ batched: { ...batched, half: draft().batched.half } })}
      >
        <HalfChoice
          text={draft().batched.text}
          half={draft().batched.half}
          time={batchedAt()}
          onPick={(half) => change({ batched: { ...draft().batched, half } })}
        />
      </StatedField>
      <StatedField
        label={t('limitOnTicket')}
        unit={t('unitMin')}
        keys="numeric"
        stated={draft().limit}
        mark={markOf('limit')}
        example={EXAMPLES.limit}
        onChange={(limit) => change({ limit: { ...limit, to: draft().limit.to } })}
      >
        <Choice
          small
          legend={t('limitRunsTo')}
          options={[
            { value: 'discharge-ended', label: t('dischargeEnded') },
            { value: 'discharge-started', label: t('dischargeStarted') },
          ]}
          value={draft().limit.to}
          onPick={(to) => change({ limit: { ...draft().limit, to } })}
        />
      </StatedField>
      <MoreFields more={more} tried={tried()} />
    </FormFrame>
  )
}
