import { createHash, randomBytes } from 'node:crypto'
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'fflate'
import { build } from 'vite'

const here = fileURLToPath(new URL('.', import.meta.url))
/** Where the built page lies; nobody commits it. */
export const PAGE_FILE = path.join(here, 'dist/verify.html')
const DESCRIPTION: { readonly version: string } = JSON.parse(
  readFileSync(new URL('../../../package.json', import.meta.url), 'utf8'),
)

/**
 * Builds the checker's page: one file, nothing fetched, and a policy that forbids the browser to fetch. The same sources
 * give the same bytes: packing is a program's of ours (`fflate`), not that of the machine's zlib.
 */
export const buildPage = async (): Promise<Uint8Array> => {
  const script = await bundle('main.ts', 'iife')
  const style = readFileSync(path.join(here, 'style.css'), 'utf8')
  const policy = [
    "default-src 'none'",
    `script-src '${hashOf(script)}' blob:`,
    `style-src '${hashOf(style)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
  const parts: Readonly<Record<string, string>> = {
    __POLICY__: policy,
    __STYLE__: style,
    __RELEASE__: DESCRIPTION.version,
    __PDF_READER__: await packed('pdf-reader.ts'),
    __STAMP_READER__: await packed('stamp-reader.ts'),
    __SCRIPT__: script,
  }
  const page = readFileSync(path.join(here, 'page.html'), 'utf8').replaceAll(
    /(?:\/\* )?(__[A-Z_]+__)(?: \*\/)?/g,
    (whole, place: string) => parts[place] ?? whole,
  )
  const bytes = new TextEncoder().encode(page)
  mkdirSync(path.dirname(PAGE_FILE), { recursive: true })
  // By another name first: whoever reads meanwhile gets the old page or the new one, never half of one.
  const part = `${PAGE_FILE}.${randomBytes(6).toString('hex')}`
  writeFileSync(part, bytes)
  renameSync(part, PAGE_FILE)
  return bytes
}

/** A module as base64 of its gzip: what `unpack` takes apart in the page. */
const packed = async (entry: string): Promise<string> => {
  const code = new TextEncoder().encode(await bundle(entry, 'es'))
  return Buffer.from(gzipSync(code, { level: 9, mtime: 0 })).toString('base64')
}

/** As a Content Security Policy names an inline script or style. */
const hashOf = (text: string): string => `sha256-${createHash('sha256').update(text).digest('base64')}`

const bundle = async (entry: string, format: 'iife' | 'es'): Promise<string> => {
  const built = await build({
    root: here,
    configFile: false,
    logLevel: 'warn',
    mode: 'production',
    define: { 'process.env.NODE_ENV': '"production"' },
    build: {
      write: false,
      target: 'es2022',
      modulePreload: { polyfill: false },
      rolldownOptions: {
        input: path.join(here, entry),
        output: { format, codeSplitting: false },
        preserveEntrySignatures: 'exports-only',
      },
    },
  })
  const [one] = Array.isArray(built) ? built : [built]
  if (!one || !('output' in one)) throw new Error(`${entry} was not built`)
  const chunks = one.output.filter((each) => each.type === 'chunk')
  if (chunks.length !== 1) throw new Error(`${entry} came out as ${chunks.length} files, not as one`)
  // Within a page the text of a script ends where it says so.
  return chunks[0]!.code.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildPage()
