import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { ENDPOINTS, type EndpointName } from '../../api/contract/endpoints.ts'
import { toHex } from '../../api/domain/log/encoding.ts'
import { sha256 } from '../../api/server/senses.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import { JOB, jpeg, openSite, type Person, type Site } from '../api/site.ts'
import { FUZZ_TIMEOUT, RUNS, SEED } from './runs.ts'

let site: Site
let askers: readonly Person[]
/** What Rosa's company has, and nobody else may learn of. */
let theirs: {
  job: string
  photo: string
  device: string
  person: string
  origin: string
  root: string
  size: string
}

beforeAll(async () => {
  site = await openSite({ seed: 51 })
  askers = [site.owner, await site.hire('Beto', 'foreman'), await site.hire('Ines', 'office')]
  const rosa = await site.found('Alderfork Concrete', 'Rosa')
  await rosa.phone.log(JOB, 'job.opened', { name: 'Wren Lane', zone: 'America/Chicago' })
  const bytes = jpeg(90)
  const photo = await keepPhoto(rosa.phone, bytes, 'image/jpeg')
  const body = { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket' } as const
  await rosa.phone.log(JOB, 'photo.taken', body, { evidence: [photo] })
  await syncRound(rosa.phone)
  // A phone of hers was withdrawn, and has sent something since.
  const second = site.unbox()
  await second.phone.join(await site.inviteCode(rosa.identity.person, rosa))
  const lost = await site.settle(second)
  const { device } = lost.identity
  await rosa.phone.log(rosa.identity.company, 'device.withdrawn', { device })
  await syncRound(rosa.phone)
  await lost.phone.log(JOB, 'load.arrived', { load: JOB })
  await syncRound(lost.phone)
  const { note } = (await site.stores.log.newestCheckpoint(rosa.identity.company))!
  const [origin, size, root] = note.split('\n')
  theirs = {
    job: JOB,
    photo,
    device,
    person: rosa.identity.person,
    origin: origin!,
    size: size!,
    root: root!,
  }
})

/** All of an answer that its asker can see. */
const seen = async (request: Request): Promise<string> => {
  const answer = await site.send(request)
  const headers = [...answer.headers].filter(([name]) => name !== 'date').sort()
  return JSON.stringify([answer.status, headers, await answer.text()])
}

const ASKING: readonly { readonly name: EndpointName; readonly of: 'job' | 'photo' | 'device' }[] = [
  { name: 'job', of: 'job' },
  { name: 'jobSlip', of: 'job' },
  { name: 'record', of: 'job' },
  { name: 'photoState', of: 'photo' },
  { name: 'photo', of: 'photo' },
  { name: 'photoSmall', of: 'photo' },
  { name: 'photoLarge', of: 'photo' },
  { name: 'photoFacts', of: 'photo' },
  { name: 'setAside', of: 'device' },
]
const anyHash = fc.uint8Array({ minLength: 4, maxLength: 8 }).map((bytes) => toHex(sha256(bytes)))
const NOBODYS = {
  job: fc.nat().map(() => site.newId()),
  photo: anyHash,
  device: fc.nat().map(() => site.newId()),
}

describe('[fuzz] what belongs to another company is answered like what is nowhere, whoever asks', () => {
  test('[fuzz] every route that names a job or a photo is asked', () => {
    const named = Object.entries(ENDPOINTS).filter(
      ([, { path, method }]) => path.includes(':') && method === 'GET',
    )
    expect(ASKING.map(({ name }) => name).sort()).toEqual(named.map(([name]) => name).sort())
  })

  for (const { name, of } of ASKING)
    test(
      `[fuzz] ${name}`,
      async () => {
        const { path } = ENDPOINTS[name]
        await fc.assert(
          fc.asyncProperty(NOBODYS[of], fc.nat(), async (nobodys, who) => {
            const cookie = askers[who % askers.length]!.cookie()
            const ask = (id: string) =>
              seen(new Request(`http://house.test${path.replace(/:\w+/, id)}`, { headers: { cookie } }))
            expect((await ask(theirs[of])).replaceAll(theirs[of], 'ID')).toBe(
              (await ask(nobodys)).replaceAll(nobodys, 'ID'),
            )
          }),
          { numRuns: Math.min(RUNS, 2_000), seed: SEED },
        )
      },
      FUZZ_TIMEOUT,
    )

  test(
    '[fuzz] invite: a person of another company is nobody',
    async () => {
      const [owner] = askers
      const ask = (person: string) =>
        seen(
          new Request('http://house.test/api/invite', {
            method: 'POST',
            headers: { cookie: owner!.cookie(), 'content-type': 'application/json' },
            body: JSON.stringify({ person, use: 'phone' }),
          }),
        )
      await fc.assert(
        fc.asyncProperty(NOBODYS.job, async (nobodys) => {
          expect(await ask(theirs.person)).toBe(await ask(nobodys))
        }),
        { numRuns: Math.min(RUNS, 2_000), seed: SEED },
      )
    },
    FUZZ_TIMEOUT,
  )

  test(
    '[fuzz] slip: without the root of a tree, a log that is there is like one that is not',
    async () => {
      const ask = (query: Record<string, string>) =>
        seen(new Request(`http://house.test/api/slip?${new URLSearchParams(query)}`))
      const { origin, size, root } = theirs
      expect(await ask({ origin, size, root })).toMatch(/^\[200,/)
      const wrong = fc
        .uint8Array({ minLength: 32, maxLength: 32 })
        .map((bytes) => Buffer.from(bytes).toString('base64'))
      await fc.assert(
        fc.asyncProperty(wrong, NOBODYS.job, fc.nat(99), async (root, company, size) => {
          const there = await ask({ origin, size: String(size), root })
          expect(there).toBe(await ask({ origin: `screedbook/${company}`, size: String(size), root }))
          expect(there).toMatch(/^\[404,/)
        }),
        { numRuns: Math.min(RUNS, 2_000), seed: SEED },
      )
    },
    FUZZ_TIMEOUT,
  )

  test(
    '[fuzz] pull and push: a session of one company gives nothing of another’s log',
    async () => {
      const { leaves } = await site.stores.log.page(theirs.origin.split('/')[1]!, 0, 99)
      const secrets = leaves.map((leaf) => leaf.entryHash)
      for (const asker of askers) {
        const answer = await seen(
          new Request('http://house.test/api/pull?from=0', { headers: { cookie: asker.cookie() } }),
        )
        for (const hash of secrets) expect(answer).not.toContain(hash)
        expect(answer).not.toContain('Wren Lane')
        expect(answer).not.toContain('Alderfork')
      }
    },
    FUZZ_TIMEOUT,
  )
})
