type Child = Node | string | undefined

/** An element with its attributes and children. Text is always text: nothing from a record is ever read as markup. */
export const el = <T extends keyof HTMLElementTagNameMap>(
  tag: T,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[T] => {
  const made = document.createElement(tag)
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value)
  made.append(...children.filter((child): child is Node | string => child !== undefined))
  return made
}

export const find = <T extends HTMLElement>(id: string): T => {
  const found = document.getElementById(id)
  if (!found) throw new Error(`the page has no #${id}`)
  return found as T
}
