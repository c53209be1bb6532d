import type { en } from './en.ts'

/** A word that a person reads, by its code. Entries and findings carry codes; words are looked up at the edge. */
export type LabelKey = keyof typeof en
