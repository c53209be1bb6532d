/** What a pour has beside its trucks' times: one file, loaded when the job's screen stands. */
export { JobSections } from './JobSections.tsx'
export { JoinCards, JoinedNote } from './JoinCards.tsx'
export { LoadMore, LoadOutcome, LoadTests } from './LoadSections.tsx'
