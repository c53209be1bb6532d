import { beforeAll, describe, expect, test } from 'vitest'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import { JOB, jpeg, openSite, type Site } from './site.ts'

let site: Site
let photo: string
beforeAll(async () => {
  site = await openSite({ seed: 61 })
  const bytes = jpeg(80)
  photo = await keepPhoto(site.owner.phone, bytes, 'image/jpeg')
  const body = { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket' } as const
  await site.owner.phone.log(JOB, 'photo.taken', body, { evidence: [photo] })
  await syncRound(site.owner.phone)
})

describe('[headers] every answer says what a browser must not do with it', () => {
  const PATHS = ['/api/jobs', '/api/jobs/none', '/api/pull?from=x', '/api/none', '/elsewhere', '/api/live']
  for (const path of PATHS)
    for (const known of [true, false])
      test(`[headers] ${path}, ${known ? 'signed in' : 'as nobody'}`, async () => {
        const headers = known ? { cookie: site.owner.cookie() } : {}
        const answer = await site.send(new Request(`http://house.test${path}`, { headers }))
        await answer.body?.cancel()
        expect(answer.headers.get('content-security-policy')).toContain("default-src 'self'")
        expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
        expect(answer.headers.get('referrer-policy')).toBe('no-referrer')
        expect(answer.headers.get('cross-origin-opener-policy')).toBe('same-origin')
      })

  test('[headers] what is below /api is nobody’s to keep, but for a photo, which can’t change', async () => {
    const keep = async (path: string) => {
      const headers = { cookie: site.owner.cookie() }
      const answer = await site.send(new Request(`http://house.test${path}`, { headers }))
      await answer.body?.cancel()
      return answer.headers.get('cache-control')
    }
    expect(await keep('/api/jobs')).toBe('no-store')
    expect(await keep('/api/none')).toBe('no-store')
    expect(await keep(`/api/photos/${photo}`)).toBe('private, max-age=31536000, immutable')
    expect(await keep('/elsewhere')).toBe(null)
  })
})
