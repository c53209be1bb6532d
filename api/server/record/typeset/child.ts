import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
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

const typeset = ({ data, createdAt, photos }: TypesetJob): TypesetAnswer => {
  // The template's own folder is all that it could read; the prints lie in memory, as if they were in it.
  const workspace = fileURLToPath(new URL('.', import.meta.url))
  const compiler = NodeCompiler.create({ workspace, fontArgs: [{ fontBlobs: fontBlobs() }] })
  const template = readFileSync(new URL('./page.typ', import.meta.url), 'utf8')
  for (const [photo, jpeg] of photos)
    compiler.mapShadow(path.join(workspace, 'photos', `${photo}.jpg`), Buffer.from(jpeg))
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
