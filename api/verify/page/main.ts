import * as z from 'zod/mini'
import { toUtf8 } from '../../domain/log/encoding.ts'
import { readVerifierKey } from '../../domain/log/note.ts'
import { readSlipWords } from '../../domain/log/slip.ts'
import { sayInCheck } from '../../domain/words/check-words.ts'
import { LANGUAGES, type Language } from '../../domain/words/words.ts'
import type { ReadPdfText } from '../figures.ts'
import type { GivenSlip } from '../slip.ts'
import type { ReadTimestamp } from '../stamp-claim.ts'
import { readCertificates } from '../timestamp/pem.ts'
import { type Verdict, type VerifySenses, verifyRecord } from '../verify.ts'
import { el, find } from './elements.ts'
import { readerOfFile } from './file-reader.ts'
import { hashFile, sha256, verifySignature } from './senses.ts'
import { unpack } from './unpack.ts'
import { viewOf } from './view.ts'

// No code out of strings: the page's own policy forbids it.
z.config({ jitless: true })

let language: Language = navigator.language.startsWith('es') ? 'es' : 'en'
let file: File | undefined
let verdict: Verdict | undefined
/** The last thing that went wrong before a check could begin; said again when the language changes. */
let trouble: (() => string) | undefined
/** Counts the checks: one that was overtaken by another file says nothing any more. */
let turn = 0

const say = (key: Parameters<typeof sayInCheck>[1], parts?: Parameters<typeof sayInCheck>[2]): string =>
  sayInCheck(language, key, parts)
const release = (): string => find('release').textContent ?? ''
/** The readers that lie packed in the page: unpacked once, and kept. */
const packed = <Module>(id: string): (() => Promise<Module | undefined>) => {
  let unpacked: Promise<Module | undefined> | undefined
  return () => {
    unpacked ??= unpack<Module>(find(id).textContent ?? '')
    return unpacked
  }
}
const pdfReader = packed<{ readonly readPdfText: ReadPdfText }>('pdf-reader')
const stampReader = packed<{ readonly readTimestamp: ReadTimestamp }>('stamp-reader')

const show = (): void => {
  document.documentElement.lang = language
  document.title = say('chkTitle')
  for (const node of document.querySelectorAll<HTMLElement>('[data-say]'))
    node.textContent = say(node.dataset.say as Parameters<typeof sayInCheck>[0] & Parameters<typeof say>[0], {
      release: release(),
    })
  find('language').lang = LANGUAGES.find((other) => other !== language)!
  const name = file?.name ?? ''
  find('result').replaceChildren(
    ...(trouble ? [el('p', { class: 'tag fails', role: 'alert', id: 'trouble' }, trouble())] : []),
    ...(verdict && file ? [viewOf({ name, verdict, language })] : []),
  )
}

const given = (): Pick<VerifySenses, 'logKey' | 'slip' | 'stampRoots'> | (() => string) => {
  const slip = readGivenSlip(find<HTMLTextAreaElement>('slip').value.trim())
  if (typeof slip === 'function') return slip
  const keyText = find<HTMLTextAreaElement>('key').value.trim()
  const key = keyText === '' ? undefined : readVerifierKey(keyText, sha256)
  if (key && !key.ok) return () => say('chkKeyOdd')
  const pem = find<HTMLTextAreaElement>('certificate').value.trim()
  const roots = pem === '' ? undefined : readCertificates(pem)
  if (roots && !roots.ok) return () => say('chkCertificateOdd')
  return {
    ...(slip ? { slip } : {}),
    ...(key ? { logKey: key.value } : {}),
    ...(roots ? { stampRoots: roots.value } : {}),
  }
}

const readGivenSlip = (text: string): GivenSlip | undefined | (() => string) => {
  if (text === '') return undefined
  const name = 'slip'
  // Mail and forms break lines their own way, and drop the last one.
  if (text.startsWith('screedbook-slip/'))
    return { name, bytes: toUtf8(`${text.replaceAll(/\s*\n\s*/g, '\n')}\n`) }
  const words = readSlipWords(text)
  if (words.ok) return { name, words: words.value }
  const { code, at } = words.problem
  return () =>
    code === 'slip-word-unknown' ? say('chkSlipWord', { word: at }) : say('chkSlipCount', { count: at })
}

const check = async (): Promise<void> => {
  if (!file) return
  const [mine, name] = [++turn, file.name]
  const extras = given()
  verdict = undefined
  trouble = typeof extras === 'function' ? extras : undefined
  show()
  if (typeof extras === 'function') {
    find('trouble').scrollIntoView()
    return
  }
  const progress = find('progress')
  const reader = readerOfFile(file, (reached) => {
    // In steps of five: a screen reader says each.
    const percent = file && file.size > 0 ? 5 * Math.floor((20 * reached) / file.size) : 100
    if (mine === turn) progress.textContent = say('chkReading', { name, percent })
  })
  progress.textContent = say('chkWorking', { name })
  try {
    const pdf = await pdfReader()
    // Some browsers give pages from a disk no WebCrypto; the page then says that stamps were not read.
    const stamps = globalThis.crypto?.subtle ? await stampReader() : undefined
    const found = await verifyRecord(reader, {
      sha256,
      hashFile,
      verify: verifySignature,
      ...(pdf ? { readPdfText: pdf.readPdfText } : {}),
      ...(stamps ? { readTimestamp: stamps.readTimestamp } : {}),
      ...extras,
    })
    if (mine !== turn) return
    verdict = found
  } catch (error) {
    if (mine !== turn) return
    const why = error instanceof Error ? error.message : String(error)
    trouble = () => say('chkUnreadable', { why })
  }
  progress.textContent = ''
  show()
  find(verdict ? 'verdict' : 'trouble').focus({ preventScroll: false })
}

const take = (files: FileList | null | undefined): void => {
  const [one, ...more] = files ?? []
  if (!one || more.length > 0) {
    if (more.length > 0) {
      turn++
      file = undefined
      verdict = undefined
      trouble = () => say('chkOneFile')
      find('progress').textContent = ''
      show()
    }
    return
  }
  file = one
  find('again').hidden = false
  void check()
}

find<HTMLInputElement>('pick').addEventListener('change', ({ currentTarget }) => {
  const pick = currentTarget as HTMLInputElement
  take(pick.files)
  // Else a file that was mended and is picked again under its name would not be heard of.
  pick.value = ''
})
find('again').addEventListener('click', () => void check())
find('language').addEventListener('click', () => {
  language = language === 'en' ? 'es' : 'en'
  show()
})
document.addEventListener('dragover', (event) => event.preventDefault())
document.addEventListener('drop', (event) => {
  event.preventDefault()
  take(event.dataTransfer?.files)
})
show()
