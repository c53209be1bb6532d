import { createSignal, For, Show } from 'solid-js'
import type { WaterFigure } from '../../api/domain/job/figures.ts'
import { showNumber } from '../../api/domain/units.ts'
import { useJob } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { showLimit, showQuantity, showSlump, showText, showTime, showWater } from '../state/show.ts'
import { Answer, Answers } from './Answer.tsx'

/** The ticket's values, or the button to log it. */
export const TicketBlock = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const fact = () => job.load(props.load)?.ticket ?? []
  return (
    <section class="block" aria-label={t('kindTicket')}>
      <h4>{t('kindTicket')}</h4>
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
              `${t('ticketNumber')} ${showText(t, value.number)}`,
              `${t('truck')} ${showText(t, value.truck)}`,
              value.yards.is === 'given' ? showQuantity(t, value.yards) : `${t('yards')} ${t('notOnTicket')}`,
              `${t('batched')} ${value.batchedAt.is === 'given' ? showTime(value.batchedAt.at, job.localNow()) : t('notOnTicket')}`,
              showLimit(t, value.limit),
            ].join('\n')
          }
        />
      </Show>
    </section>
  )
}

/** "Water?": none in one tap, so much, or not sure. Nothing recorded is said as such. */
export const WaterBlock = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const water = () => job.load(props.load)?.water ?? []
  const figure = () => job.loadFigures(props.load)?.water
  const tap = async (is: 'none' | 'not-sure') => {
    if (busy()) return
    setBusy(true)
    await job.tap('water.added', { load: props.load, amount: { is } }).finally(() => setBusy(false))
  }
  return (
    <section class="block" aria-label={t('water')}>
      <h4>{t('waterQuestion')}</h4>
      <For each={water().map((s) => s.hash)}>
        {(hash) => {
          const said = () => water().find((s) => s.hash === hash)
          const value = () => {
            const one = said()
            return one ? `${showWater(t, one.value)} · ${showTime(one.at, job.localNow())}` : ''
          }
          return <Answer hash={hash} value={value()} />
        }}
      </For>
      <Show when={figure()}>{(f) => <p class="sum">{showWaterFigure(t, f())}</p>}</Show>
      <Show when={job.loadFigures(props.load)?.oddities.includes('water-none-and-some')}>
        <p class="odd">⚠ {t('oddWaterBoth')}</p>
      </Show>
      <div class="wrap">
        <Show when={water().length === 0}>
          <button type="button" class="main" disabled={busy()} onClick={() => void tap('none')}>
            {t('waterNone')}
          </button>
        </Show>
        <button
          type="button"
          onClick={() => job.setOver({ is: 'new', kind: 'water.added', load: props.load })}
        >
          {t(water().length === 0 ? 'gallons' : 'moreGallons')}
        </button>
        <Show when={water().length === 0}>
          <button type="button" disabled={busy()} onClick={() => void tap('not-sure')}>
            {t('notSure')}
          </button>
        </Show>
      </div>
    </section>
  )
}

const showWaterFigure = (t: Words, water: WaterFigure): string => {
  if (water.is === 'none') return t('waterSumNone')
  if (water.is === 'not-sure') return t('waterSumNotSure')
  if (water.is === 'not-recorded') return t('waterSumNotRecorded')
  const sum = t('waterSum', { gallons: showNumber(water.gallons) })
  return water.alsoNotSure ? `${sum} · ${t('waterMaybeMore')}` : sum
}

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

/** Remarks on a load, or on the job where no load is given. */
export const RemarkBlock = (props: { load?: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const remarks = () => (props.load ? job.load(props.load)?.remarks : job.view().remarks) ?? []
  return (
    <section class="block" aria-label={t('remark')}>
      <h4>{t('remarks')}</h4>
      <For each={remarks().map((s) => s.hash)}>
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
    </section>
  )
}
