import { lazy, Suspense } from 'solid-js'
import type { Kind } from '../../api/domain/entry/registry.ts'
import { FINDING_WORDS } from '../../api/domain/words/finding-words.ts'
import { usePhone } from '../state/phone.ts'
import { EntryBlock } from './EntryBlock.tsx'
import { Fold } from './Fold.tsx'

/** The trade’s maths is a file of its own, fetched and worked through only when somebody opens the fold. */
const PublishedList = lazy(async () => ({ default: (await import('./PublishedList.tsx')).PublishedList }))

const EDITIONS: readonly Kind[] = ['editions.chosen']

/** The job’s figures beside limits of published texts, and which edition each is judged by. */
export const Published = () => {
  const { language } = usePhone()
  return (
    <Fold title={FINDING_WORDS[language()].texts.head}>
      <EntryBlock kinds={EDITIONS} />
      <Suspense>
        <PublishedList />
      </Suspense>
    </Fold>
  )
}
