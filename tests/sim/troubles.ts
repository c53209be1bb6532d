import { getMeta, type OwnEntry, type PhotoKept } from '../../web/sync/kept.ts'
import { push } from '../../web/sync/push.ts'
import { syncRound } from '../../web/sync/round.ts'
import type { PhoneSnapshot } from '../kit/memory-phone-store.ts'
import { logNow } from './day.ts'
import { createSimPhone, type SimPhone } from './sim-phone.ts'
import type { Day } from './simulate.ts'

/** The day's one great trouble, which comes after the steps that the plan names. */
export const createTroubles = (day: Day): { after(step: number): Promise<void> } => {
  const { plan } = day
  const begin = BEGIN[plan.trouble]
  let end: End = async () => {}
  return {
    after: async (step) => {
      if (step === plan.from && begin) end = await begin(day)
      if (step === plan.at) await end()
    },
  }
}

type End = () => Promise<void>

const BEGIN: Partial<Record<Day['plan']['trouble'], (day: Day) => Promise<End>>> = {
  'server-restored': async (day) => {
    const server = day.serverOf('curt')
    const early = server.written.length
    return async () => {
      // The backup of a while ago, or one that lacks but the last moments; maybe just what it has acknowledged last.
      const late = Math.max(early, server.written.length - 1 - day.chance.below(3))
      const now = server.written.length
      const isLast = day.chance.chance(0.4)
      if (isLast) await day.calm(() => pushOnly(anyOf(day), day))
      const backup = isLast ? now : day.chance.chance(0.5) ? early : late
      day.route(await day.build(server, backup))
    }
  },

  'split-view': async (day) => {
    const honest = day.serverOf('curt')
    const liar = await day.build(honest, honest.written.length)
    const names = new Set(day.phones.filter((p) => p.role !== 'owner').map((p) => p.name))
    day.route(liar, names)
    return async () => day.route(day.chance.chance(0.5) ? honest : liar)
  },

  'phone-cloned': async (day) => {
    const p = anyOf(day)
    const copy = createSimPhone(`${p.name} copied`, p.role, day, (r) => day.serverOf(p.name).send(r), p.key)
    copy.store.restore(p.store.snapshot())
    for (const hash of p.said) copy.said.add(hash)
    for (const [hash, bytes] of p.photos) copy.photos.set(hash, bytes)
    copy.unlogged.push(...p.unlogged)
    p.doubled = true
    copy.doubled = true
    day.phones.push(copy)
    return async () => {}
  },

  'phone-restored': async (day) => {
    const p = anyOf(day)
    const before: PhoneSnapshot = p.store.snapshot()
    return async () => {
      await loseUnacknowledged(p)
      p.store.restore(before)
      p.phone = p.start()
      p.doubled = true
    }
  },

  'phone-withdrawn': async (day) => {
    const p = day.phones.find((one) => one.role === 'crew' || one.role === 'foreman')!
    const owner = day.phones[0]!
    const { device } = (await p.store.transact((tx) => getMeta(tx, 'identity')))!
    return async () => {
      await day.calm(async () => {
        owner.said.add(await owner.phone.log(day.site.company, 'device.withdrawn', { device }))
        await day.turns.until(syncRound(owner.phone))
      })
      p.withdrawn = true
    }
  },

  'storage-evicted': async (day) => {
    const p = day.phones.find((one) => one.role === 'crew' || one.role === 'foreman')!
    return async () => {
      const { person } = (await p.store.transact((tx) => getMeta(tx, 'identity')))!
      await loseUnacknowledged(p)
      day.phones.splice(day.phones.indexOf(p), 1)
      day.past.push(p)
      await day.calm(() => day.hire(`${p.name} anew`, p.role, person))
    }
  },
}

/** It is acknowledged, and the app is closed before it reads the log. */
const pushOnly = async (p: SimPhone, day: Day): Promise<void> => {
  await logNow(p, day.site)
  await day.turns.until(push(p.phone))
}

const anyOf = (day: Day): SimPhone => day.chance.pick(day.phones)

/** What the server had not acknowledged is lost with the storage, and nobody could have kept it. */
const loseUnacknowledged = async (p: SimPhone): Promise<void> => {
  const { own, photos } = await p.store.transact(async (tx) => ({
    own: await tx.list<OwnEntry>('own'),
    photos: await tx.list<PhotoKept>('photos'),
  }))
  for (const entry of own) if (entry.state.is !== 'kept') p.gone.add(entry.hash)
  for (const photo of photos) if (!photo.sent) p.photos.delete(photo.hash)
  p.unlogged.splice(0)
}
