/**
 * A text of the dictionaries with its blanks, `{name}`, filled from `parts`. A blank without a part stays as it is;
 * brackets around a part that is empty go with it.
 */
export const fill = (text: string, parts: Readonly<Record<string, string | number>>): string =>
  text
    .replaceAll(/ \(\{(\w+)\}\)/g, (whole, name: string) => (parts[name] === '' ? '' : whole))
    .replaceAll(/\{(\w+)\}/g, (whole, name: string) => String(parts[name] ?? whole))
