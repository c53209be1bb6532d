/**
 * Which load each id stands for, after every join that stands: the smallest id of those joined. A function of the set of
 * joins; a join taken back parts them again.
 */
export const joinedLoads = (joins: readonly (readonly string[])[]): ((id: string) => string) => {
  const parent = new Map<string, string>()
  const root = (id: string): string => {
    let at = id
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) at = up
    return at
  }
  for (const ids of joins) {
    const roots = [...new Set(ids.map(root))].sort()
    for (const other of roots.slice(1)) parent.set(other, roots[0]!)
  }
  return root
}
