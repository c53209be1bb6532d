import { getDocument, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs'
import type { ReadPdfText } from '../verify/figures.ts'

/** The text of each sheet in the order in which it is drawn, as pdf.js reads it; nothing in the file is run. */
export const readPdfText: ReadPdfText = async (pdf) => {
  // pdf.js takes the buffer for itself.
  const loading = getDocument({
    data: pdf.slice(),
    isEvalSupported: false,
    useSystemFonts: false,
    disableFontFace: true,
    verbosity: VerbosityLevel.ERRORS,
  })
  try {
    const document = await loading.promise
    const sheets: string[] = []
    for (let number = 1; number <= document.numPages; number++) {
      const page = await document.getPage(number)
      const { items } = await page.getTextContent({ disableNormalization: true })
      sheets.push(items.map((item) => ('str' in item ? item.str : '')).join(''))
    }
    return sheets
  } finally {
    await loading.destroy()
  }
}
