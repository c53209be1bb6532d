/**
 * Stands for `temporal-polyfill` in the app's build: the browser's own Temporal where it has one, and only else the
 * polyfill, 19 kB, fetched at the start. The package's own entry chooses alike and carries both.
 */
type Polyfill = typeof import('temporal-polyfill/implementation')

const own = (globalThis as { readonly Temporal?: Polyfill['Temporal'] }).Temporal
export const Temporal = own ?? (await import('temporal-polyfill/implementation')).Temporal
