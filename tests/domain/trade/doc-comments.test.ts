import { readdirSync, readFileSync } from 'node:fs'
import { parseSync } from 'oxc-parser'
import { expect, test } from 'vitest'

const FOLDER = new URL('../../../api/domain/trade/', import.meta.url)
const FILES = readdirSync(FOLDER).filter((name) => name.endsWith('.ts'))

type Exported = { readonly name: string; readonly file: string; readonly comment: string | undefined }

/** Each exported constant that is a function, with the doc comment that ends just above it. */
const exportedFunctions = (file: string): Exported[] => {
  const text = readFileSync(new URL(file, FOLDER), 'utf8')
  const { program, comments } = parseSync(file, text)
  return program.body.flatMap((node) => {
    if (node.type !== 'ExportNamedDeclaration' || !node.declaration) return []
    const above = comments.find(
      ({ type, value, end }) =>
        type === 'Block' && value.startsWith('*') && text.slice(end, node.start).trim() === '',
    )
    const one = (name: string) => ({ name, file, comment: above?.value })
    if (node.declaration.type === 'FunctionDeclaration') return [one(node.declaration.id?.name ?? '')]
    if (node.declaration.type !== 'VariableDeclaration') return []
    return node.declaration.declarations.flatMap(({ id, init }) =>
      id.type === 'Identifier' && init?.type === 'ArrowFunctionExpression' ? [one(id.name)] : [],
    )
  })
}

const ALL = FILES.flatMap(exportedFunctions)

test('[trade] every exported function says its units, how it fails, and its source', () => {
  const lacking = ALL.flatMap(({ name, file, comment }) =>
    ['Units:', 'Fails:', 'Source:']
      .filter((part) => !comment?.includes(part))
      .map((part) => `${file} ${name} lacks ${part}`),
  )
  expect(lacking).toEqual([])
})

test('[trade] the reading of comments sees the functions that are there', () => {
  expect(ALL.length).toBeGreaterThan(70)
  expect(ALL.map(({ name }) => name)).toContain('evaporationRate')
})
