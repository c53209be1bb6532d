import { Show } from 'solid-js'
import { compare, ratio, showNumber } from '../../api/domain/units.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showUnit } from '../state/show.ts'

/** Yards on the tickets against what was ordered, in the largest type of the screen. */
export const YardsBoard = () => {
  const { t } = usePhone()
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
