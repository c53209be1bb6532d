/** The sheets of a job's screen: one file, so that the first load is small and one more is enough. */
export { EntrySheet } from './EntrySheet.tsx'
export { FormSheet } from './forms/FormSheet.tsx'
export { PhotosSheet } from './PhotosSheet.tsx'
export { QuickSheet } from './pads/QuickSheet.tsx'
export { BlanksSheet } from './pour/BlanksSheet.tsx'
export { ReadOutSheet } from './pour/ReadOutSheet.tsx'
export { SlipSheet } from './SlipSheet.tsx'
export { TakeBackSheet } from './TakeBackSheet.tsx'
