/** The languages that everything is said in. Apart from the dictionaries, so that a phone loads one of those alone. */
export const LANGUAGES = ['en', 'es'] as const
export type Language = (typeof LANGUAGES)[number]
