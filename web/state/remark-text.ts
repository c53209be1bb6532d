/** What an entry holds of a remark, counted as its schema counts. */
export const REMARK_MOST = 2000

/** Keyboards and clipboards bring tabs and returns; entries hold no control character but the line's end. */
export const tidyRemark = (text: string): string =>
  text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll('\t', ' ')
    .replaceAll(/[^\P{Cc}\n]/gu, '')
    .trim()

/** How many characters are too many. A remark is never cut: whoever wrote it shortens it. */
export const remarkOver = (text: string): number => Math.max(0, tidyRemark(text).length - REMARK_MOST)
