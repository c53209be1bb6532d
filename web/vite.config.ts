import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { defineConfig, type Plugin } from 'vite'
import solid from 'vite-plugin-solid'

const here = fileURLToPath(new URL('.', import.meta.url))

export default defineConfig({
  root: here,
  resolve: {
    alias: [{ find: /^temporal-polyfill$/, replacement: join(here, 'device/temporal.ts') }],
  },
  build: {
    outDir: join(here, 'dist'),
    emptyOutDir: true,
    target: 'es2022',
    // One small file a screen would cost a round trip each; the worker keeps them all anyway.
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { app: join(here, 'index.html'), sw: join(here, 'sw/sw.ts') },
      output: {
        entryFileNames: ({ name }) => (name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
  plugins: [solid(), shellList()],
})

/**
 * Tells the service worker which files make this version, once all of them are written: its name is a hash over their
 * bytes, so the same sources give the same worker, and any change gives another.
 */
function shellList(): Plugin {
  let outDir = ''
  return {
    name: 'shell-list',
    apply: 'build',
    configResolved: (config) => {
      outDir = config.build.outDir
    },
    writeBundle: () => {
      const files = allFiles(outDir)
        .map((file) => `/${relative(outDir, file).split(sep).join('/')}`)
        .filter((file) => file !== '/sw.js')
        .sort()
      const version = createHash('sha256')
      for (const file of files) version.update(`${file}\n`).update(readFileSync(join(outDir, file)))
      const shell = JSON.stringify({ version: version.digest('hex').slice(0, 16), files })
      const path = join(outDir, 'sw.js')
      const worker = readFileSync(path, 'utf8')
      if (!worker.includes('__SHELL__')) throw new Error('sw.js has no place for its list of files')
      if (/^\s*(?:import|export)\b/m.test(worker)) throw new Error('sw.js must be one file')
      writeFileSync(path, `const __SHELL__ = ${shell};\n${worker}`)
    },
  }
}

function allFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
}
