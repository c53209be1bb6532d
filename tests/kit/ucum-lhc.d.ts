/** The little of it that is used here; it brings no types of its own. */
declare module '@lhncbc/ucum-lhc' {
  type Utils = {
    validateUnitString(code: string): { readonly status: string; readonly ucumCode: string | null }
    convertUnitTo(from: string, value: number, to: string): { readonly toVal: number }
  }
  export const UcumLhcUtils: { getInstance(): Utils }
}
