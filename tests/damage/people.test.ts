import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { keysFrom } from '../../api/server/keys.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { recordMaker } from '../../api/server/record/maker.ts'
import { sha256 } from '../../api/server/senses.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { logEntry } from '../../web/sync/log-entry.ts'
import { syncRound } from '../../web/sync/round.ts'
import { entryText, hashOf, JOB, LOAD, openSite, pushed } from '../api/site.ts'
import { MASTER_KEY } from '../kit/house.ts'
import { type Files, remake, said, textOf, unpack, verify, verifyAll } from './record-kit.ts'
import type { ScriptedLog } from './scripted-log.ts'

const STRANGER = fileURLToPath(new URL('../spec-checker', import.meta.url))
let folder: string
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'screedbook-people-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** What the stranger's checker says of the same file: `code file` of each finding. */
const strangerSays = (record: Uint8Array): string[] => {
  const file = path.join(folder, 'record.zip')
  writeFileSync(file, record)
  const run = spawnSync('python3', ['check.py', file, '--json'], { cwd: STRANGER, encoding: 'utf8' })
  const { findings } = JSON.parse(run.stdout) as { findings: { code: string; file: string }[] }
  return [...new Set(findings.map((f) => `${f.code} ${f.file}`))].sort()
}

/** A job with a shared phone, and a phone that was withdrawn: one of its later entries admitted, one declined, one open. */
const open = async () => {
  const stores = createMemoryStore()
  const site = await openSite({ seed: 51, stores })
  const beto = await site.hire('Beto', 'crew')
  const lou = await site.hire('Lou', 'owner')
  const shared = await site.share()
  await site.owner.phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  await syncRound(site.owner.phone)
  const at = shared.phone.localTime()
  const arrived = {
    job: JOB,
    kind: 'load.arrived',
    body: { load: LOAD },
    occurredAt: at,
    source: 'tap',
  } as const
  await logEntry(shared.phone, arrived, { known: 'picked', person: beto.identity.person })
  await syncRound(shared.phone)
  const remark = (text: string) => entryText(site, beto, { body: { remark: { lang: 'en', text } } })
  const before = [remark('before')]
  await pushed(beto, { entries: before })
  const { device } = beto.identity
  await site.owner.phone.log(site.company, 'device.withdrawn', { device })
  await syncRound(site.owner.phone)
  const [admitted, declined, waiting] = [remark('admitted'), remark('declined'), remark('waiting')]
  await pushed(beto, { before, entries: [admitted, declined, waiting] })
  const decide = (entry: string, verdict: string) =>
    entryText(site, lou, {
      kind: 'push.decided',
      job: site.company,
      body: { device, entries: [hashOf(entry)], verdict },
    })
  await pushed(lou, { entries: [decide(admitted, 'admitted'), decide(declined, 'declined')] })
  const keysOf = keysFrom(MASTER_KEY)
  const make = recordMaker({ stores, photos: createPhotoMemory(sha256), keysOf }, '0.0.0-test')
  const stream = await make({ company: site.company, job: JOB, language: 'en', checkpointSize: undefined })
  const record = new Uint8Array(await new Response(stream).arrayBuffer())
  const { origin } = (await stores.log.company(site.company))!
  // Enough of a log to sign a manifest anew.
  const log = { origin, key: keysOf(origin).log } as unknown as ScriptedLog
  return { record, log, admitted, declined, waiting, files: () => unpack(record) }
}
let house: Awaited<ReturnType<typeof open>>
beforeAll(async () => {
  house = await open()
})

const quoted = (files: Files, kind: string, verdict?: string): string =>
  [...files.keys()].find(
    (name) =>
      /^company\/\w+\.json$/.test(name) &&
      textOf(files, name).includes(`"kind":"${kind}"`) &&
      (verdict === undefined || textOf(files, name).includes(verdict)),
  )!

describe('[L55–L56] a record of a job with a shared phone and a withdrawn one', () => {
  test('[L41] holds whole, by our checker and by the stranger’s', async () => {
    expect(said(await verifyAll(house.record))).toEqual([])
    expect(strangerSays(house.record)).toEqual([])
  })

  test('[record] says how names were known, and what was decided on what was set aside', async () => {
    const files = await house.files()
    const model = JSON.parse(textOf(files, 'record.json'))
    expect(
      model.job.history.map((e: { by: { known: string; name?: string } }) => `${e.by.known} ${e.by.name}`),
    ).toEqual(['own-device Curt', 'picked Beto', 'own-device Beto', 'own-device Beto'])
    expect(model.setAside).toMatchObject([
      { entry: hashOf(house.admitted), is: 'admitted', decided: { by: { name: 'Lou' } } },
      { entry: hashOf(house.declined), is: 'declined', decided: { by: { name: 'Lou' } } },
      { entry: hashOf(house.waiting), is: 'waiting' },
    ])
    const text = execFileSync('pdftotext', ['-layout', '-', '-'], { input: files.get('record.pdf')! })
      .toString()
      .replace(/\s+/g, ' ')
    expect(text).toContain('Phone that the crew shares, Curt answers for it')
    expect(text).toContain('under a name that was tapped there: 2.')
    expect(text).toContain('set aside: 3. Of these an owner admitted 1 and declined 1')
    expect(text).toMatch(/set aside at first: 4 \(admitted by Lou, /)
  })

  test('[L56] without the decision that admits it, an entry that was set aside is a finding', async () => {
    const files = await house.files()
    const decision = quoted(files, 'push.decided', '"verdict":"admitted"')
    const hash = decision.slice('company/'.length, -'.json'.length)
    for (const name of [...files.keys()]) if (name.includes(hash)) files.delete(name)
    const damaged = await remake(files, house.log)
    expect(said(await verify(damaged))).toContain('entry-set-aside thread.txt')
    expect(strangerSays(damaged)).toContain('entry-set-aside thread.txt')
  })

  test('[L55] an enrolment that hides that the phone is shared does not fit the entries made there', async () => {
    const files = await house.files()
    const name = [...files.keys()].find(
      (each) => each.startsWith('company/') && textOf(files, each).includes('"use":"shared"'),
    )!
    files.set(name, new TextEncoder().encode(textOf(files, name).replace('"use":"shared"', '"use":"phone"')))
    const damaged = await remake(files, house.log)
    expect(said(await verify(damaged))).toContain('author-differs entries/000002.json')
    expect(strangerSays(damaged)).toContain('author-differs entries/000002.json')
  })
})
