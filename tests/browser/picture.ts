import { execFileSync } from 'node:child_process'
import { mkdir, readFile, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { unpack } from '../damage/record-kit.ts'
import { newProfile, openBrowser, PHONE_SIZE } from '../kit/browser.ts'
import { newDataFolder, startServerProcess } from '../kit/server.ts'
import { buildWeb } from './built.ts'
import { button, sees } from './crew.ts'

/**
 * The README's pictures, made from the demonstration: `npm run picture`. A phone's screen of the job, and the sheet
 * of its record that has the pour against time (for which pdftoppm, Debian poppler-utils, has to be installed).
 */
const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const PICTURES = path.join(ROOT, 'seeds', 'pictures')
const JOB = '019d8d20-7000-7000-8000-00000000ce11'
/** Few colours are enough for a screen, and keep the picture small. */
const COLORS = 64

const keep = async (name: string, png: Uint8Array): Promise<void> => {
  const small = await sharp(png).png({ palette: true, colours: COLORS, effort: 10 }).toBuffer()
  await mkdir(PICTURES, { recursive: true })
  await writeFile(path.join(PICTURES, name), small)
  process.stdout.write(`seeds/pictures/${name}: ${Math.ceil(small.length / 1024)} KiB\n`)
}

const phoneScreen = async (url: string, link: string): Promise<Uint8Array> => {
  const profile = await newProfile()
  const browser = await openBrowser(profile.folder, { size: PHONE_SIZE })
  try {
    const { page } = browser
    await page.goto(link)
    await button(page, 'Join').click()
    await sees(page, 'Tern Court')
    await page.goto(`${url}/job/${JOB}`)
    await sees(page, '71352')
    await page.waitForLoadState('networkidle')
    // The load that the day turned on, below the strip that stays in view.
    await page.getByRole('heading', { name: 'Load 2' }).evaluate((heading) => {
      const strip = document.querySelector('.strip')!.getBoundingClientRect().height
      window.scrollTo(0, heading.getBoundingClientRect().top + window.scrollY - strip - 40)
    })
    return await page.screenshot()
  } finally {
    await browser.close()
    await profile.remove()
  }
}

const pourSheet = async (folder: string): Promise<Uint8Array> => {
  const env = { ...process.env, DATA: folder }
  const zip = path.join(folder, 'record.zip')
  const cli = path.join(ROOT, 'api/cli/screedbook.js')
  execFileSync(process.execPath, [cli, 'export', 'Tern Court', '--out', zip], { env })
  const pdf = path.join(folder, 'record.pdf')
  await writeFile(pdf, await memberOf(zip, 'record.pdf'))
  return execFileSync('pdftoppm', ['-png', '-singlefile', '-f', '2', '-r', '80', pdf], {
    maxBuffer: 64 * 1024 * 1024,
  })
}

const memberOf = async (zip: string, name: string): Promise<Uint8Array> => {
  return (await unpack(new Uint8Array(await readFile(zip)))).get(name)!
}

buildWeb()
const data = await newDataFolder()
const folder = path.join(data.folder, 'demo')
const server = await startServerProcess({ command: 'demo', dataFolder: folder })
try {
  const link = /^ {2}Curt, \w+ +(http\S+)$/m.exec(server.printed())![1]!
  // The record first: a phone that joins is an entry of its own, and this one is today's.
  await keep('record.png', await pourSheet(folder))
  await keep('phone.png', await phoneScreen(server.url, link))
} finally {
  await server.stop()
  await data.remove()
}
