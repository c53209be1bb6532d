import { keepPhoto } from '../../web/sync/photos.ts'
import { pull } from '../../web/sync/pull.ts'
import { push } from '../../web/sync/push.ts'
import { syncRound } from '../../web/sync/round.ts'
import { WireDown } from '../../web/sync/wire.ts'
import type { Phone } from '../kit/phone.ts'
import { logAny, logNewer, logPoison } from './entries.ts'
import { type Sim, type SimPhone, storeFaults, suffering } from './sim-phone.ts'
import { smallPhoto } from './small-photo.ts'

export type Site = { readonly company: string; readonly jobs: readonly string[] }

/**
 * A stretch of a phone's day: somebody logs a few things and maybe syncs meanwhile, in one tab or two; now and then the
 * phone loses power in the middle of either, is short of room, starts anew, or has its clock set.
 */
export const live = async (p: SimPhone, sim: Sim, site: Site): Promise<void> => {
  const { chance } = sim
  p.store.fault = storeFaults(p.store, chance)
  if (chance.chance(0.1)) p.clock.jump()
  const logs = async (): Promise<void> => {
    for (let i = chance.below(p.role === 'office' ? 2 : 4); i > 0; i--) {
      await sim.turns.gate(`${p.name} logs`)
      await suffering(logSomething(p, sim, site))
    }
  }
  // Nobody waits for the sync to end before the next tap, and a second tab may sync the same store: also one that an
  // update of the program has just opened while the old one still runs.
  const tabs = chance.chance(0.75) ? (chance.chance(0.25) ? [p.phone, p.start()] : [p.phone]) : []
  await Promise.all([logs(), ...tabs.map((tab) => suffering(sync(tab, chance)))])
  p.store.fault = undefined
  if (chance.chance(0.15)) p.phone = p.start()
}

/** A whole round; or the app is closed as soon as it has pushed, or as soon as it has pulled. */
const sync = async (tab: Phone, chance: Sim['chance']): Promise<void> => {
  const how = chance.next()
  if (how < 0.75) await syncRound(tab)
  else await closedEarly(how < 0.9 ? push(tab) : pull(tab))
}

const closedEarly = async (step: Promise<unknown>): Promise<void> => {
  try {
    await step
  } catch (error) {
    // A round would have taken it so.
    if (!(error instanceof WireDown)) throw error
  }
}

const logSomething = async (p: SimPhone, { chance }: Sim, { company, jobs }: Site): Promise<void> => {
  const job = chance.pick(jobs)
  const what = chance.next()
  if (what < 0.17) return takePhoto(p, chance, job)
  if (what < 0.25 && p.unlogged.length > 0) return logPhoto(p, chance.pick(p.unlogged), job)
  const hash =
    what < 0.33
      ? await logPoison(p.phone, chance, { company, job })
      : what < 0.36
        ? await logNewer(p.phone, job)
        : await logAny(p.phone, chance, job, [...p.said])
  p.said.add(hash)
}

/** One plain entry, at once. */
export const logNow = async (p: SimPhone, { jobs }: Site): Promise<void> => {
  const remark = { lang: 'en', text: 'the last truck is gone' }
  p.said.add(await p.phone.log(jobs[0]!, 'remark.made', { remark }))
}

/** The bytes first; the entry at once, or later, when a sync may have sent them already. */
const takePhoto = async (p: SimPhone, chance: Sim['chance'], job: string): Promise<void> => {
  const bytes = smallPhoto(chance)
  // The camera gives one picture twice now and then.
  const again = p.photos.size > 0 && chance.chance(0.1) ? [...p.photos.values()][0]! : bytes
  const photo = await keepPhoto(p.phone, again, 'image/jpeg')
  p.photos.set(photo, again)
  if (chance.chance(0.7)) await logPhoto(p, photo, job)
  else p.unlogged.push(photo)
}

const logPhoto = async (p: SimPhone, photo: string, job: string): Promise<void> => {
  const bytes = p.photos.get(photo)!.length
  const body = { photo, bytes, type: 'image/jpeg', shows: 'ticket' } as const
  p.said.add(await p.phone.log(job, 'photo.taken', body, { evidence: [photo] }))
}
