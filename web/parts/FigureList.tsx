import { For, Show } from 'solid-js'
import { type Ratio, showNumber } from '../../api/domain/units.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { showMinutes, showUnit } from '../state/show.ts'

/** Yards formed, ordered, ticketed and placed, and how long each edge stood: computed, none typed. */
export const FigureList = () => {
  const { t } = usePhone()
  const job = useJob()
  const figures = () => job.figures()
  const yards = (number: Ratio | undefined, without = 0): string => {
    if (!number) return t('notRecorded')
    const value = `${showNumber(number)} ${showUnit(t, 'yd3')}`
    return without > 0 ? `${value} (${t('ofLoadsUnknown', { count: without })})` : value
  }
  const counted = () => job.view().loads.length > figures().loadsWithoutYards
  const placed = () => job.view().loads.length > figures().loadsWithoutPlaced
  const numberOf = (load: string) => job.load(load)?.ordinal ?? ''
  const rows = (): [string, string][] => [
    [t('formed'), yards(figures().formedYards)],
    [t('ordered'), yards(figures().orderedYards)],
    [t('onTickets'), yards(counted() ? figures().ticketedYards : undefined, figures().loadsWithoutYards)],
    [t('placedYards'), yards(placed() ? figures().placedYards : undefined, figures().loadsWithoutPlaced)],
  ]
  return (
    <dl class="facts">
      <For each={rows()}>
        {([label, value]) => (
          <div>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        )}
      </For>
      <Show when={figures().overFormed}>
        {(over) => (
          <div>
            <dt>{t('overFormed')}</dt>
            <dd>{`${showNumber(over(), 1)} ${showUnit(t, 'pct')}`}</dd>
          </div>
        )}
      </Show>
      <For each={figures().edgeGaps}>
        {({ from, to, minutes }) => (
          <div>
            <dt>{t('edgeGap', { from: numberOf(from), to: numberOf(to) })}</dt>
            <dd>{showMinutes(t, minutes)}</dd>
          </div>
        )}
      </For>
    </dl>
  )
}
