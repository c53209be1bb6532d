import { invited } from '../../api/contract/messages/enrol.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { type App, createApp } from '../../api/server/app.ts'
import { CommitUnknown, type LogStore } from '../../db/log-store/log-store.ts'
import { createMemoryStore } from '../../db/memory/memory-store.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { keepPhoto } from '../../web/sync/photos.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import type { Wire } from '../../web/sync/wire.ts'
import { WireDown } from '../../web/sync/wire.ts'
import { type Chance, createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'
import { createMemoryPhoneStore, type MemoryPhoneStore, PhoneCrashed } from '../kit/memory-phone-store.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'
import { createRoughWire, FINE, type Weather } from './network.ts'
import { smallPhoto } from './small-photo.ts'
import { createTurns, type Turns } from './turns.ts'

const ROUGH: Weather = { lost: 0.12, answerLost: 0.12, twice: 0.08, cut: 0.05 }
const START = Date.UTC(2026, 3, 21, 12, 0, 0)

export type SimPhone = {
  readonly name: string
  readonly store: MemoryPhoneStore
  phone: Phone
  /** Hash and text of each entry of which the phone said that it is kept. */
  readonly said: Set<string>
  /** Hash and bytes of each photo of which the phone said so. */
  readonly photos: Map<string, Uint8Array>
  readonly make: () => Phone
}
export type Simulated = {
  readonly phones: readonly SimPhone[]
  readonly store: LogStore
  readonly company: string
  readonly job: string
  readonly answer: (request: Request) => Promise<Response>
  readonly checkpoints: readonly { readonly size: number; readonly root: string }[]
  readonly photoBytes: (hash: string) => Promise<Uint8Array | undefined>
  readonly turns: readonly string[]
}

/**
 * Two phones and a server, all product code, under a seeded network that loses, doubles, cuts and delays, phones that
 * lose power between write and flush, and a server that dies before the commit, after it, or between commit and answer.
 * Ends with fine weather and everyone synced; `oracle` says whether anything was lost, doubled or altered.
 */
export const simulate = async (seed: number): Promise<Simulated> => {
  const chance = createChance(seed)
  const turns = createTurns(chance)
  let weather: Weather = FINE
  let time = START
  const clock = (): number => {
    time += 1 + chance.below(5_000)
    return time
  }
  let trouble = false
  const stores = createMemoryStore({
    fault: (point) => {
      if (!trouble || !chance.chance(0.06)) return
      throw point === 'after-commit'
        ? new CommitUnknown('the server died after the commit')
        : new Error('the server died before the commit')
    },
  })
  const log = gated(stores.log, turns)
  const first = await openHouse({ chance, now: clock, stores: { ...stores, log } })
  let app: App = first
  const restart = async (): Promise<void> => {
    app = await createApp({ ...first.world, boot: uuidV7(clock(), chance.bytes) })
  }
  const answer = async (request: Request): Promise<Response> => {
    const mine = app
    const response = await mine.app.fetch(request)
    // The process that took the request is gone: whatever it did, nobody hears of it.
    if (mine !== app) throw new WireDown('the server was restarted')
    return response
  }
  const sim = { chance, turns, clock, weather: () => weather }
  const owner = simPhone('curt', sim, createWire(answer))
  await turns.until(owner.phone.setUp(await first.setUpCode()))
  const { company } = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  const person = uuidV7(clock(), chance.bytes)
  owner.said.add(await owner.phone.log(company, 'person.added', { person, name: 'Marisol', role: 'crew' }))
  const job = uuidV7(clock(), chance.bytes)
  owner.said.add(await owner.phone.log(job, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' }))
  await turns.until(syncRound(owner.phone))
  const second = simPhone('marisol', sim, createWire(answer))
  await turns.until(joinWith(owner.phone, second.phone, person))
  const phones = [owner, second]
  const checkpoints: { size: number; root: string }[] = []

  weather = ROUGH
  trouble = true
  const steps = 6 + chance.below(10)
  for (let step = 0; step < steps; step++) {
    if (chance.chance(0.08)) await restart()
    await turns.until(Promise.all(phones.map((p) => live(p, sim, job))))
    for (const p of phones) await noteCheckpoint(p, checkpoints)
  }
  weather = FINE
  trouble = false
  for (const p of phones) {
    p.store.fault = undefined
    await healed(p, turns)
  }
  for (const p of phones) await healed(p, turns)
  const photoBytes = async (hash: string) => {
    const file = await first.world.photos.open(company, hash)
    return file && new Uint8Array(await new Response(file.stream).arrayBuffer())
  }
  return { phones, store: stores.log, company, job, answer, checkpoints, photoBytes, turns: turns.taken }
}

type Sim = {
  readonly chance: Chance
  readonly turns: Turns
  readonly clock: () => number
  readonly weather: () => Weather
}

const simPhone = (name: string, sim: Sim, wire: Wire): SimPhone => {
  const { chance, turns, clock, weather } = sim
  const store = createMemoryPhoneStore()
  const rough = createRoughWire({ name, wire, turns, chance, weather })
  const seed = chance.bytes(32)
  // The same key and store, another run of the program.
  const make = () => createPhone({ chance, now: clock, wire: rough, store, seed })
  return { name, store, phone: make(), said: new Set(), photos: new Map(), make }
}

/** A stretch of a phone's day: it logs a few things, maybe syncs, maybe loses power in the middle of either. */
const live = async (p: SimPhone, sim: Sim, job: string): Promise<void> => {
  const { chance } = sim
  p.store.fault = () => {
    if (!chance.chance(0.02)) return
    p.store.crash()
    throw new PhoneCrashed('the battery was pulled')
  }
  try {
    const logs = async () => {
      for (let i = chance.below(4); i > 0; i--) {
        await sim.turns.gate(`${p.name} logs`)
        await logSomething(p, sim, job)
      }
    }
    // Nobody waits for the sync to end before the next tap, and a second tab may sync the same store.
    const tabs = chance.chance(0.75) ? (chance.chance(0.3) ? [p.phone, p.make()] : [p.phone]) : []
    const ends = await Promise.allSettled([logs(), ...tabs.map((tab) => syncRound(tab))])
    for (const end of ends) if (end.status === 'rejected') throw end.reason
  } catch (error) {
    if (!(error instanceof PhoneCrashed)) throw error
  }
  p.store.fault = undefined
  if (chance.chance(0.1)) p.phone = p.make()
}

const logSomething = async (p: SimPhone, { chance, clock }: Sim, job: string): Promise<void> => {
  const load = `018f0000-0000-7000-8000-00000000000${1 + chance.below(3)}`
  const { log } = p.phone
  const said = [...p.said]
  const makers: (() => Promise<string>)[] = [
    () => log(job, 'load.arrived', { load }),
    () => log(job, 'discharge.started', { load }),
    () => log(job, 'discharge.ended', { load }),
    () =>
      log(job, 'water.added', {
        load,
        amount: chance.chance(0.5)
          ? { is: 'none' }
          : { is: 'given', text: String(chance.below(20)), unit: 'gal' },
      }),
    () =>
      log(job, 'slump.measured', {
        load,
        slump: { is: 'given', text: `${chance.below(9)} 1/4`, unit: 'in' },
        how: 'cone',
      }),
    () =>
      log(job, 'remark.made', {
        remark: { lang: 'es', text: `nota ${chance.below(1000)} — ya vació` },
        load,
      }),
    () =>
      log(job, 'entry.withdrawn', {}, { corrects: [said.length > 0 ? chance.pick(said) : '0'.repeat(64)] }),
    // Somebody who may not: the server refuses it, and what follows goes on.
    () =>
      log(job, 'role.changed' as never, { person: uuidV7(clock(), chance.bytes), role: 'owner' } as never),
    async () => {
      const bytes = smallPhoto(chance)
      const photo = await keepPhoto(p.phone, bytes, 'image/jpeg')
      p.photos.set(photo, bytes)
      return log(
        job,
        'photo.taken',
        { photo, bytes: bytes.length, type: 'image/jpeg', shows: 'ticket', load },
        { evidence: [photo] },
      )
    },
  ]
  p.said.add(await chance.pick(makers)())
}

const joinWith = async (owner: Phone, second: Phone, person: string): Promise<void> => {
  const answer = await owner.wire({
    method: 'POST',
    path: '/api/invite',
    ...jsonBody({ person, use: 'phone' }),
  })
  const code = readAnswer(answer, invited)
  if (!code.ok) throw new Error(code.refused.code)
  await second.join(code.value.code)
}

/** Every checkpoint that a phone ever believed: the final tree has to contain each. */
const noteCheckpoint = async (p: SimPhone, all: { size: number; root: string }[]): Promise<void> => {
  const log = await p.store.transact((tx) => getMeta(tx, 'company-log'))
  if (!log) return
  const [, size, root] = log.note.split('\n')
  all.push({ size: Number(size), root: root! })
}

const healed = async (p: SimPhone, turns: Turns): Promise<void> => {
  for (let i = 0; i < 20; i++) {
    const round = await turns.until(syncRound(p.phone))
    if (round.is === 'synced' && round.push?.is === 'nothing-to-push' && round.pull?.is === 'up-to-date')
      return
    if (round.is === 'stopped') throw new Error(`${p.name} stopped: ${JSON.stringify(round)}`)
  }
  throw new Error(`${p.name} does not come to rest`)
}

/** Stops at a gate with the transaction open, so that other requests queue up behind it. */
const gated = (store: LogStore, turns: Turns): LogStore => ({
  ...store,
  transact: (company, fn) =>
    store.transact(company, (tx) =>
      fn({
        ...tx,
        append: async (rows) => {
          await turns.gate('append')
          return tx.append(rows)
        },
      }),
    ),
})
