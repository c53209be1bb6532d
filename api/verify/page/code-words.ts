import type { CheckKey } from '../../domain/words/check-words.ts'
import type { FindingCode } from '../findings.ts'
import type { Group } from '../groups.ts'

/** `file-missing` → `chkFileMissing`: the compiler asks for a sentence of each code. */
type Camel<Text extends string> = Text extends `${infer Head}-${infer Tail}`
  ? `${Capitalize<Head>}${Camel<Tail>}`
  : Capitalize<Text>
type KeyOfCode = `chk${Camel<FindingCode>}`

export const codeKey = (code: FindingCode): CheckKey => {
  const key: KeyOfCode =
    `chk${code.replaceAll(/(?:^|-)([a-z])/g, (_, letter: string) => letter.toUpperCase())}` as KeyOfCode
  return key
}

export const GROUP_KEYS: Readonly<Record<Group, CheckKey>> = {
  files: 'chkFiles',
  log: 'chkLog',
  thread: 'chkThread',
  entries: 'chkEntries',
  authors: 'chkAuthors',
  company: 'chkCompany',
  seen: 'chkSeen',
  photos: 'chkPhotos',
  figures: 'chkFigures',
  pdf: 'chkPdf',
  slip: 'chkSlipRow',
  stamps: 'chkStamps',
}
