import { Show } from 'solid-js'
import type { Ticket } from '../../api/domain/job/view.ts'
import { bodyLines } from '../../api/domain/words/body-lines.ts'
import { type JobHere, useJob } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showLimit, showQuantity, showText, showTime } from '../state/show.ts'
import { Answers } from './Answer.tsx'

/** The ticket's values, or the button to log it. */
export const TicketBlock = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const fact = () => job.load(props.load)?.ticket ?? []
  return (
    <fieldset class="block" aria-label={kindWord(t, 'ticket.recorded')}>
      <h4>{kindWord(t, 'ticket.recorded')}</h4>
      <Show
        when={fact().length > 0}
        fallback={
          <button
            type="button"
            onClick={() => job.setOver({ is: 'new', kind: 'ticket.recorded', load: props.load })}
          >
            {t('logTicket')}
          </button>
        }
      >
        <Answers
          fact={fact()}
          show={({ value }) =>
            [
              `${t('ticketNumber')} ${showText(t, value.number)} · ${t('truck')} ${showText(t, value.truck)}`,
              value.yards.is === 'given' ? showQuantity(t, value.yards) : `${t('yards')} ${t('notOnTicket')}`,
              `${t('batched')} ${value.batchedAt.is === 'given' ? showTime(value.batchedAt.at, job.localNow()) : t('notOnTicket')}`,
              showLimit(t, value.limit),
              ...restLines(t, value, job),
            ].join('\n')
          }
        />
      </Show>
    </fieldset>
  )
}

/** Whatever else of the ticket was logged. */
const restLines = (t: Words, ticket: Ticket, job: JobHere): string[] => {
  const { number, truck, yards, batchedAt, limit, ...rest } = ticket
  return bodyLines(rest, t.entry(), job.names(t)).map(({ label, text }) => `${label}: ${text}`)
}
