import { getDocument, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs'
import type { ReadPdfText } from '../verify/figures.ts'
import { type PdfDoor, readSheets } from '../verify/pdf-sheets.ts'

/** The text of each sheet in the order in which it is drawn, as pdf.js reads it; nothing in the file is run. */
export const readPdfText: ReadPdfText = (pdf) =>
  readSheets(getDocument as PdfDoor, VerbosityLevel.ERRORS, pdf)
