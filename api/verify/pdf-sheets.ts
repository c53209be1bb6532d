/** As much of pdf.js as a reader of text needs; which build of it is the caller's affair. */
export type PdfDoor = (options: {
  readonly data: Uint8Array
  readonly isEvalSupported: boolean
  readonly useSystemFonts: boolean
  readonly disableFontFace: boolean
  readonly verbosity: number
}) => {
  readonly promise: Promise<{
    readonly numPages: number
    getPage(number: number): Promise<{
      getTextContent(options: {
        readonly disableNormalization: boolean
      }): Promise<{ readonly items: readonly object[] }>
    }>
  }>
  destroy(): Promise<void>
}

/** The text of each sheet in the order in which it is drawn; nothing in the file is run. Rejects on a bad file. */
export const readSheets = async (
  open: PdfDoor,
  verbosity: number,
  pdf: Uint8Array,
): Promise<readonly string[]> => {
  const loading = open({
    // pdf.js takes the buffer for itself.
    data: pdf.slice(),
    isEvalSupported: false,
    useSystemFonts: false,
    disableFontFace: true,
    verbosity,
  })
  try {
    const whole = await loading.promise
    const sheets: string[] = []
    for (let number = 1; number <= whole.numPages; number++) {
      const page = await whole.getPage(number)
      const { items } = await page.getTextContent({ disableNormalization: true })
      sheets.push(
        items.map((item) => ('str' in item && typeof item.str === 'string' ? item.str : '')).join(''),
      )
    }
    return sheets
  } finally {
    await loading.destroy()
  }
}
