import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler'
import type { TypesetAnswer, TypesetJob } from './typeset.ts'

/**
 * One page, one process: Typst's call is synchronous, and its memory is its own. Takes one job by message, answers
 * once, and ends. No font of the machine is used but the two that the package brings, so that pages are the same
 * everywhere.
 */
const FONTS = ['400Regular', '700Bold'] as const

const fontBlobs = (): Buffer[] => {
  const find = createRequire(import.meta.url)
  return FONTS.map((style) =>
    readFileSync(
      find.resolve(`@expo-google-fonts/atkinson-hyperlegible/${style}/AtkinsonHyperlegible_${style}.ttf`),
    ),
  )
}

const typeset = ({ data, createdAt }: TypesetJob): TypesetAnswer => {
  const compiler = NodeCompiler.create({ fontArgs: [{ fontBlobs: fontBlobs() }] })
  const template = readFileSync(new URL('./page.typ', import.meta.url), 'utf8')
  const compiled = compiler.compile({ mainFileContent: template, inputs: { data } })
  const document = compiled.result
  if (!document) {
    const error = compiled.takeError()
    return { said: JSON.stringify(error ? compiler.fetchDiagnostics(error) : []).slice(0, 2000) }
  }
  return { pdf: compiler.pdf(document, { pdfStandard: 'a-3b', creationTimestamp: createdAt }) }
}

process.once('message', (job: TypesetJob) => {
  let answer: TypesetAnswer
  try {
    answer = typeset(job)
  } catch (error) {
    answer = { said: String(error).slice(0, 2000) }
  }
  process.send?.(answer, () => process.disconnect())
})
