import type { Kind } from '../../api/domain/entry/registry.ts'
import { gapText, toleranceNotes } from '../state/finding-text.ts'
import { useJob } from '../state/job-here.ts'
import { usePhone } from '../state/phone.ts'
import { EntryBlock, KindButtons } from './EntryBlock.tsx'
import { Fold } from './Fold.tsx'
import { GapList } from './GapList.tsx'

const USUAL_TESTS: readonly Kind[] = ['air.measured', 'temperature.measured', 'cylinders.made']
const RARE_TESTS: readonly Kind[] = ['flow.measured', 'density.measured']
const DECISION: readonly Kind[] = ['load.accepted', 'load.rejected']
const RARE: readonly Kind[] = [
  'crew.ready',
  ...DECISION,
  'limit.waived',
  'admixture.added',
  ...RARE_TESTS,
  'strength.reported',
]

/** Readings of a load beside its slump, each against the order; and whether the load was taken. */
export const LoadTests = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  return (
    <>
      <EntryBlock
        title={t('tests')}
        load={props.load}
        kinds={[...USUAL_TESTS, ...RARE_TESTS]}
        offers={USUAL_TESTS}
        notes={(line) => toleranceNotes(t, job.loadFigures(props.load), line.hash)}
      />
      <EntryBlock
        title={t('decision')}
        load={props.load}
        kinds={['crew.ready', ...DECISION]}
        offers={[]}
        hidesEmpty
      />
      <EntryBlock load={props.load} kinds={['admixture.added']} offers={[]} hidesEmpty />
    </>
  )
}

/** Where the load went, what was left, and what was signed. */
export const LoadOutcome = (props: { load: string }) => {
  const { t } = usePhone()
  return (
    <>
      <EntryBlock title={t('whereItWent')} load={props.load} kinds={['load.placed', 'concrete.left']} />
      <EntryBlock
        title={t('signing')}
        load={props.load}
        kinds={['ticket.signed', 'limit.waived']}
        offers={['ticket.signed']}
      />
      <EntryBlock
        title={t('laterOn')}
        load={props.load}
        kinds={['strength.reported']}
        offers={[]}
        hidesEmpty
      />
    </>
  )
}

/** What is seldom logged of a load, and what its log leaves open. */
export const LoadMore = (props: { load: string }) => {
  const { t } = usePhone()
  const job = useJob()
  const gaps = () => job.figures().gaps.filter((gap) => gap.load === props.load)
  return (
    <>
      <Fold title={t('moreOfLoad')}>
        <KindButtons kinds={RARE} load={props.load} />
      </Fold>
      <Fold title={t('gapsOfLoad')} says={t('gapsCount', { count: gaps().length })}>
        <GapList lines={gaps().map((gap) => gapText(t, gap, job.names(t)))} />
      </Fold>
    </>
  )
}
