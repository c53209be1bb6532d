/** Every code that a check may give: SPEC L40, L41 and L44. */
export const FINDING_CODES = [
  'zip-malformed',
  'file-missing',
  'file-unlisted',
  'file-differs',
  'key-malformed',
  'key-differs',
  'manifest-signature',
  'manifest-malformed',
  'sums-differ',
  'checkpoint-signature',
  'checkpoint-malformed',
  'checkpoint-differs',
  'leaf-malformed',
  'leaf-format-unknown',
  'thread-count',
  'thread-link',
  'thread-tag',
  'leaf-repeated',
  'inclusion-failed',
  'entry-malformed',
  'entry-differs',
  'entry-thread',
  'founding-missing',
  'founding-differs',
  'device-unknown',
  'head-signature',
  'head-malformed',
  'author-proof',
  'author-missing',
  'author-differs',
  'entry-set-aside',
  'heads-fork',
  'consistency-failed',
  'consistency-missing',
  'seen-ahead',
  'earlier-signature',
  'earlier-differs',
  'photo-differs',
  'photo-missing',
  'slip-disagrees',
  'slip-malformed',
  'slip-later',
  'slip-unknown',
  'stamp-missing',
  'stamp-malformed',
  'stamp-differs',
  'stamp-signature',
  'stamp-authority',
  'figures-differ',
  'pdf-differs',
  'table-differs',
  'format-unknown',
  'entry-unread',
] as const
export type FindingCode = (typeof FINDING_CODES)[number]

export type Finding = {
  readonly code: FindingCode
  /** Name of the file within the record, or of the slip; `-` where it is of no one file. */
  readonly file: string
  /** An English sentence without a full stop: what is wrong there. */
  readonly detail: string
}

/** All but `entry-unread`: that an entry is of a newer program is told, and is no failure of the log (L44). */
export const isFailure = (finding: Finding): boolean => finding.code !== 'entry-unread'

export type Report = (code: FindingCode, file: string, detail: string) => void

/** Keeps every finding, each once (L42). */
export const collectFindings = (): { readonly findings: readonly Finding[]; readonly report: Report } => {
  const findings: Finding[] = []
  const known = new Set<string>()
  return {
    findings,
    report: (code, file, detail) => {
      const key = `${code}\n${file}\n${detail}`
      if (known.has(key)) return
      known.add(key)
      findings.push({ code, file, detail })
    },
  }
}
