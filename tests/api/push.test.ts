import { expect, test } from 'vitest'
import { invited } from '../../api/contract/messages/enrol.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { phoneEntries } from '../../web/sync/entries.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import { createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'
import { createPhone, createWire } from '../kit/phone.ts'

const START = Date.UTC(2026, 3, 21, 12, 0, 0)

const open = async () => {
  const chance = createChance(1)
  let now = START
  const clock = () => ++now
  const house = await openHouse({ chance, now: clock })
  const answer = async (request: Request) => house.app.fetch(request)
  const owner = createPhone({ chance, now: clock, wire: createWire(answer) })
  await owner.setUp(await house.setUpCode())
  return { chance, clock, house, answer, owner }
}

test('[L46] what one phone logs is on the other after each has synced', async () => {
  const { chance, clock, answer, owner } = await open()
  const identity = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  const marisol = uuidV7(clock(), chance.bytes)
  await owner.log(identity.company, 'person.added', { person: marisol, name: 'Marisol', role: 'crew' })
  expect(await syncRound(owner)).toMatchObject({ is: 'synced' })
  const code = readAnswer(
    await owner.wire({ method: 'POST', path: '/api/invite', ...jsonBody({ person: marisol, use: 'phone' }) }),
    invited,
  )
  if (!code.ok) throw new Error(code.refused.code)
  const second = createPhone({ chance, now: clock, wire: createWire(answer) })
  await second.join(code.value.code)
  const job = uuidV7(clock(), chance.bytes)
  await owner.log(job, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  const load = uuidV7(clock(), chance.bytes)
  await owner.log(job, 'load.arrived', { load })
  expect(await syncRound(owner)).toMatchObject({ is: 'synced' })
  expect(await syncRound(second)).toMatchObject({ is: 'synced', pull: { is: 'pulled' } })
  await second.log(job, 'water.added', { load, amount: { is: 'none' } })
  expect(await syncRound(second)).toMatchObject({ is: 'synced' })
  expect(await syncRound(owner)).toMatchObject({ is: 'synced' })
  const [a, b] = await Promise.all(
    [owner, second].map((p) => p.store.transact((tx) => phoneEntries(tx, p.sha256))),
  )
  expect(a!.logged.map((e) => e.hash).sort()).toEqual(b!.logged.map((e) => e.hash).sort())
  expect(a!.own.every((o) => o.state.is === 'kept' && o.state.landed)).toBe(true)
})
