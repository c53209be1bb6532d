import { Show } from 'solid-js'
import { compare, minus, plus, type Ratio, ratio, showNumber } from '../../api/domain/units.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showUnit } from '../state/show.ts'

/** Yards on the tickets against what was ordered, in the largest type of the screen. */
export const YardsBoard = () => {
  const { t, jobs } = usePhone()
  const job = useJob()
  /** A sum over no load at all would look like a measured zero. */
  const counted = () => job.view().loads.length > job.figures().loadsWithoutYards
  const ordered = () => job.figures().orderedYards
  const difference = () => {
    const d = job.figures().difference
    if (!d) return undefined
    const size = showNumber(d.n < 0n ? ratio(-d.n, d.d) : d)
    const side = compare(d, ratio(0n))
    return side === 0 ? t('yardsEven') : t(side < 0 ? 'yardsToCome' : 'yardsOver', { yards: size })
  }
  /** By the plan, less what came on tickets; below nothing there is nothing to say. */
  const needed = () => {
    const { formedYards, ticketedYards, partsWithoutYards } = job.figures()
    if (!formedYards || partsWithoutYards > 0 || job.view().loads.length === 0) return undefined
    const open = minus(formedYards, ticketedYards)
    return compare(open, ratio(0n)) > 0 ? open : undefined
  }
  /** More is needed than the order still has to come: time to tape what is left, and to call. */
  const isShort = (yards: Ratio): boolean => {
    const toCome = job.figures().difference
    return toCome !== undefined && compare(plus(yards, toCome), ratio(0n)) > 0
  }
  const placed = () =>
    job.view().loads.length > job.figures().loadsWithoutPlaced ? job.figures().placedYards : undefined
  const yd = (yards: Ratio) => `${showNumber(yards)} ${showUnit(t, 'yd3')}`
  return (
    <section class="card yards" aria-label={t('yards')}>
      <div class="two-figures">
        <div>
          <Show when={counted()} fallback={<span>{t('noYardsYet')}</span>}>
            <output class="figure">
              {showNumber(job.figures().ticketedYards)} <small>{showUnit(t, 'yd3')}</small>
            </output>
            <span>{t('onTickets')}</span>
          </Show>
        </div>
        <div>
          <Show when={ordered()} fallback={<span>{t('orderNotRecorded')}</span>}>
            {(yards) => (
              <>
                <output class="figure">
                  {showNumber(yards())} <small>{showUnit(t, 'yd3')}</small>
                </output>
                <span>{t('orderedYards')}</span>
              </>
            )}
          </Show>
        </div>
      </div>
      <Show when={difference()}>{(text) => <p class="sum">{text()}</p>}</Show>
      <Show when={placed()}>
        {(yards) => (
          <p>
            {yd(yards())} {t('placedSoFar')}
            {job.figures().loadsWithoutPlaced > 0
              ? ` (${t('ofLoadsUnknown', { count: job.figures().loadsWithoutPlaced })})`
              : ''}
          </p>
        )}
      </Show>
      <Show when={needed()}>
        {(yards) => (
          <>
            <p>
              <strong>{yd(yards())}</strong> {t('neededByPlan')}
            </p>
            <Show when={isShort(yards()) && jobs.mayMake('balance.ordered')}>
              <p>{t('balanceHelp')}</p>
              <button type="button" onClick={() => job.setOver({ is: 'new', kind: 'balance.ordered' })}>
                {t('orderBalance')}
              </button>
            </Show>
          </>
        )}
      </Show>
      <Show when={job.figures().loadsWithoutYards > 0}>
        <p>{t('loadsWithoutYards', { count: job.figures().loadsWithoutYards })}</p>
      </Show>
      <Show when={job.view().ordered.length === 0}>
        <button type="button" onClick={() => job.setOver({ is: 'new', kind: 'concrete.ordered' })}>
          {t('logOrder')}
        </button>
      </Show>
    </section>
  )
}
