import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { KINDS, type Kind } from '../../api/domain/entry/registry.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { anyBody } from '../kit/any-body.ts'
import { entryText, hashOf, openSite, type Person, pushed, type Site, textOf } from './site.ts'

const JOB_KINDS = (Object.keys(KINDS) as Kind[]).filter(
  (kind) => KINDS[kind].thread === 'job' && KINDS[kind].maker === 'person',
)
const LOADS = ['019db000-0000-7000-8000-00000000000a', '019db000-0000-7000-8000-00000000000b'] as const

/** A run of entries over three jobs, of every kind, with corrections and withdrawals of earlier ones among them. */
const dayOf = (site: Site, by: Person, seed: number): string[] => {
  const jobs = Array.from({ length: 3 }, () => site.newId())
  const pools = {
    uuid: fc.constantFrom(...LOADS),
    hash: fc.constantFrom('ab'.repeat(32), 'cd'.repeat(32)),
    time: fc.constantFrom('2026-04-21T07:05-05:00', '2026-04-21T09:30-05:00'),
  }
  const kinds = [...JOB_KINDS, ...JOB_KINDS, 'job.opened', 'job.opened', 'job.opened'] as const
  const order = fc.sample(fc.shuffledSubarray([...kinds], { minLength: kinds.length }), {
    numRuns: 1,
    seed,
  })[0]!
  const targets = fc.sample(fc.record({ job: fc.nat(2), back: fc.nat(9), is: fc.nat(3) }), {
    numRuns: kinds.length,
    seed,
  })
  const entries: { job: string; text: string }[] = []
  for (const [i, kind] of order.entries()) {
    const { job, back, is } = targets[i]!
    const own = entries.filter((e) => e.job === jobs[job])
    const target = own.at(-1 - back) ?? own.at(-1)
    const corrects = target && (kind === 'entry.withdrawn' || is === 0) ? [hashOf(target.text)] : undefined
    if (kind === 'entry.withdrawn' && !corrects) continue
    const body = fc.sample(anyBody(kind, pools), { numRuns: 1, seed: seed + i })[0]!
    const evidence = kind === 'photo.taken' ? [(body as { photo: string }).photo] : undefined
    entries.push({
      job: jobs[job]!,
      text: entryText(site, by, { kind, job: jobs[job], body, corrects, evidence }),
    })
  }
  return entries.map(({ text }) => text)
}

/** All that is answered out of projections, and the projections themselves. */
const answers = async (site: Site): Promise<string> => {
  const list = textOf(await site.owner.phone.wire({ method: 'GET', path: '/api/jobs' }))
  const rows = await site.stores.views.views(site.company, 'job-name')
  return JSON.stringify({ list, rows: rows.sort((a, b) => (a.job < b.job ? -1 : 1)) })
}

export const projectionSuite = (stores: () => Promise<Stores>): void => {
  describe('[projections] dropping and rebuilding every projection gives equal bytes', () => {
    test('[projections] of jobs of every kind of entry, read while they grew', async () => {
      const site = await openSite({ seed: 61, stores: await stores() })
      const before: string[] = []
      for (let seed = 1; seed <= 3; seed++) {
        const entries = dayOf(site, site.owner, seed)
        // Read between pushes: rows are built at many a stage, and have to follow.
        for (let i = 0; i < entries.length; i += 20) {
          const some = entries.slice(i, i + 20)
          const { verdicts } = await pushed(site.owner, { before, entries: some })
          expect(verdicts.filter(({ is }) => is !== 'kept')).toEqual([])
          before.push(...some)
          await answers(site)
        }
      }
      const grown = await answers(site)
      expect(JSON.parse(grown).rows).toHaveLength(9)
      expect(
        JSON.parse(JSON.parse(grown).list).jobs.filter((j: { name: string }) => j.name !== '').length,
      ).toBeGreaterThan(3)
      await site.stores.views.dropViews()
      expect(await site.stores.views.views(site.company, 'job-name')).toEqual([])
      expect(await answers(site)).toBe(grown)
    })

    test('[projections] a row of another version, or that has read less, is built anew; nothing else is', async () => {
      const site = await openSite({ seed: 62, stores: await stores() })
      const job = site.newId()
      const name = (text: string, corrects?: string[]) =>
        entryText(site, site.owner, {
          job,
          kind: 'job.opened',
          body: { name: text, zone: 'America/Chicago' },
          corrects,
        })
      const first = name('Tern Cort')
      const second = name('Tern Court', [hashOf(first)])
      const named = async () =>
        JSON.parse(textOf(await site.owner.phone.wire({ method: 'GET', path: '/api/jobs' }))).jobs[0].name
      await pushed(site.owner, { entries: [first] })
      expect(await named()).toBe('Tern Cort')
      await pushed(site.owner, { before: [first], entries: [second] })
      expect(await named()).toBe('Tern Court')
      site.calls.length = 0
      expect(await named()).toBe('Tern Court')
      expect(site.calls.filter((call) => call === 'views.putView')).toEqual([])
      await site.stores.views.putView(site.company, {
        job,
        name: 'job-name',
        version: 99,
        count: 99,
        body: 'of another',
      })
      expect(await named()).toBe('Tern Court')
    })
  })
}
