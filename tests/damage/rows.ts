import { AUTHOR_ROWS } from './rows/authors.ts'
import { CHECKPOINT_ROWS } from './rows/checkpoint.ts'
import { COMPANY_ROWS } from './rows/company.ts'
import { ENTRY_ROWS } from './rows/entries.ts'
import { FIGURE_ROWS } from './rows/figures.ts'
import { FRAME_ROWS } from './rows/frame.ts'
import { PHOTO_ROWS } from './rows/photos.ts'
import { SEEN_ROWS } from './rows/seen.ts'
import { THREAD_ROWS } from './rows/thread.ts'

export { ALL, type Checker, type Ground, OURS, type Row } from './rows/kit.ts'

/** Each damage, with the codes and files that a checker has to name. Time stamps have rows of their own. */
export const ROWS = [
  ...FRAME_ROWS,
  ...CHECKPOINT_ROWS,
  ...THREAD_ROWS,
  ...ENTRY_ROWS,
  ...COMPANY_ROWS,
  ...AUTHOR_ROWS,
  ...SEEN_ROWS,
  ...PHOTO_ROWS,
  ...FIGURE_ROWS,
]
