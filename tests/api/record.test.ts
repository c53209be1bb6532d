import { beforeAll, expect, test } from 'vitest'
import { syncRound } from '../../web/sync/round.ts'
import { JOB, LOAD, openSite, problemOf, type Site } from './site.ts'

let site: Site
beforeAll(async () => {
  site = await openSite({ seed: 12 })
  await site.owner.phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  await syncRound(site.owner.phone)
})

const ask = (query: string) =>
  site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}/record.zip?${query}` })

test.each([
  ['load=two', '/load'],
  ['placement=drive', '/placement'],
  ['from=21.4.2026', '/from'],
  ['from=2026-04-22&to=2026-04-21', '/to'],
  ['withhold=prices', '/withhold'],
  ['withhold=personal&withhold=loads.joined', '/withhold'],
  ['language=fr', '/language'],
  ['checkpoint=0', '/checkpoint'],
])('[scope] a record asked for with ?%s is refused, and the member at %s named', async (query, at) => {
  const problem = problemOf(await ask(query))
  expect([problem.code, problem.errors]).toEqual(['request-malformed', [{ pointer: at }]])
})

test('[scope] a well-formed request reaches the maker of records, who says what is not there', async () => {
  const problem = problemOf(await ask(`load=${LOAD}&withhold=personal&withhold=water.added&from=2026-04-21`))
  expect(problem.code).toBe('not-found')
})
