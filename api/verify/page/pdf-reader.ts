// Both halves of pdf.js in this one file: on a page from a disk its worker can't be fetched, so it runs beside the page.
import 'pdfjs-dist/legacy/build/pdf.worker.min.mjs'
import { getDocument, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { type PdfDoor, readSheets } from '../pdf-sheets.ts'

/** The text of each sheet, read with the same options as in the command line. */
export const readPdfText = (pdf: Uint8Array): Promise<readonly string[]> =>
  readSheets(getDocument as PdfDoor, VerbosityLevel.ERRORS, pdf)
