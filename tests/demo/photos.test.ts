import { readdirSync, readFileSync, statSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { readExifFacts } from '../../api/server/photo/exif/exif-facts.ts'
import { readExif } from '../../api/server/photo/views/read-exif.ts'
import { momentOf } from '../../seeds/clock.ts'
import { framed, HEIGHT, MARK, WIDTH } from '../../seeds/drawings/paper.ts'
import { PICTURES } from '../../seeds/drawings/pictures.ts'
import { ZONE } from '../../seeds/jobs/tern-court/site.ts'
import { TERN_COURT } from '../../seeds/jobs/tern-court/tern-court.ts'
import { isSnap } from '../../seeds/step.ts'

const FOLDER = fileURLToPath(new URL('../../seeds/jobs/tern-court/photos/', import.meta.url))
const SNAPS = TERN_COURT.steps({ curt: '', marisol: '', beto: '', wade: '', teddy: '' }).filter(isSnap)
const bytesOf = (name: string) => readFileSync(`${FOLDER}${name}.jpg`)

test('every photo that is logged was drawn, every one that was drawn is logged, and all are under a megabyte', () => {
  const files = readdirSync(FOLDER).sort()
  expect(files).toEqual(PICTURES.map(({ name }) => `${name}.jpg`).sort())
  expect(SNAPS.map(({ photo }) => `${photo}.jpg`).sort()).toEqual(files)
  expect(files.reduce((sum, file) => sum + statSync(FOLDER + file).size, 0)).toBeLessThan(1_000_000)
})

describe.each(PICTURES)('$name', ({ name, caption, inside, taken, orientation = 1, located }) => {
  test('is drawn with the words that say so', () => {
    expect(MARK).toBe('DRAWN FOR THE DEMO')
    expect(framed(caption, inside)).toContain(`>${MARK}</text>`)
  })

  test('stands upright once it is turned as its file says, with black letters in its foot', async () => {
    const upright = sharp(await sharp(bytesOf(name)).rotate().toBuffer())
    const { width, height } = await upright.metadata()
    expect([width, height]).toEqual([WIDTH, HEIGHT])
    const foot = await upright
      .extract({ left: 24, top: 676, width: 330, height: 36 })
      .greyscale()
      .raw()
      .toBuffer()
    expect(foot.filter((grey) => grey < 80).length / foot.length).toBeGreaterThan(0.1)
  })

  test('says in its file when it was taken, or nothing where it came out of a chat', async () => {
    const { facts, position } = readExifFacts(await readExif(bytesOf(name)))
    if (taken === undefined) {
      expect([facts.time.local.is, facts.orientation.is, position.place.is]).toEqual(Array(3).fill('absent'))
      return
    }
    expect(facts.time.utc.is).toBe('given')
    const utc = facts.time.utc.is === 'given' ? facts.time.utc.value : ''
    const logged = momentOf(SNAPS.find(({ photo }) => photo === name)!.at, ZONE).ms
    expect(Math.floor(Date.parse(utc) / 60_000)).toBe(Math.floor(logged / 60_000))
    expect(facts.orientation).toEqual({ is: 'given', value: orientation })
    expect(position.place.is).toBe(located ? 'given' : 'absent')
  })
})

test('the one place that a file names lies in the open sea, far from anybody’s home', async () => {
  const { position } = readExifFacts(await readExif(bytesOf('base-drive')))
  const place = position.place.is === 'given' ? position.place.value : undefined
  expect(place?.latitude).toBeCloseTo(-48.8767, 3)
  expect(place?.longitude).toBeCloseTo(-123.3933, 3)
})
