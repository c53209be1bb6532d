import { For, Show } from 'solid-js'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { gapText, JOB_ODDITIES } from '../state/finding-text.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { Cautions } from './Cautions.tsx'
import { EntryBlock } from './EntryBlock.tsx'
import { FigureList } from './FigureList.tsx'
import { FinishPad } from './FinishPad.tsx'
import { Fold } from './Fold.tsx'
import { GapList } from './GapList.tsx'
import { Published } from './Published.tsx'

const ORDER: readonly Kind[] = [
  'customer.named',
  'site.addressed',
  'placement.planned',
  'mix.ordered',
  'concrete.ordered',
  'concrete.held',
  'balance.ordered',
  'delivery.promised',
]
const BEFORE: readonly Kind[] = ['base.checked', 'depth.measured']
const CALLS: readonly Kind[] = ['dispatch.called']
const WEATHER: readonly Kind[] = ['weather.observed', 'temperature.measured']
const FINISH: readonly Kind[] = [
  'finish.done',
  'cure.applied',
  'cover.placed',
  'joint.sawn',
  'slab.served',
  'rain.fell',
]

/** All that belongs to the whole job, in the order of the day. Folded, each says how much of it is logged. */
export const JobSections = () => {
  const { t } = usePhone()
  const job = useJob()
  const count = (kinds: readonly Kind[]): string => {
    const logged = job.standing(kinds).length
    return logged === 0 ? t('nothingLogged') : t('recordedCount', { count: logged })
  }
  /** Of one load they stand on its card. */
  const gaps = () => job.figures().gaps.filter((gap) => gap.load === undefined)
  return (
    <>
      <For each={job.figures().oddities}>{(odd) => <p class="odd">⚠ {t(JOB_ODDITIES[odd])}</p>}</For>
      <Fold title={t('theOrder')} says={count(ORDER)}>
        <EntryBlock kinds={ORDER} />
      </Fold>
      <Fold title={t('beforePour')} says={count(BEFORE)}>
        <EntryBlock kinds={BEFORE} />
      </Fold>
      <Fold title={t('callsAndPromises')} says={count(CALLS)}>
        <EntryBlock kinds={CALLS} />
      </Fold>
      <Fold title={t('weatherHead')} says={count(WEATHER)}>
        <EntryBlock kinds={WEATHER} />
        <Cautions of={['cautionHeat', 'cautionCold']} />
      </Fold>
      <Fold title={t('finishHead')} says={count(FINISH)}>
        <FinishPad />
        <EntryBlock kinds={FINISH} />
        <Cautions of={['cautionSilica', 'cautionWash']} />
      </Fold>
      <Fold title={t('figuresHead')}>
        <FigureList />
      </Fold>
      <Published />
      <Show when={gaps().length > 0}>
        <Fold title={t('gapsHead')} says={t('gapsCount', { count: gaps().length })}>
          <GapList lines={gaps().map((gap) => gapText(t, gap, job.names(t)))} />
        </Fold>
      </Show>
    </>
  )
}
