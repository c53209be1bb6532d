import { createApp } from '../../api/server/app.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { createWire, type Phone } from '../kit/phone.ts'
import { recording, replay } from '../kit/replay.ts'
import { JOB, openSite } from './site.ts'

/** A site with a job, and the means to stand another server of the same house beside it, with the same keys. */
export const openTwo = async () => {
  const kept = recording()
  const site = await openSite({ seed: 4, stores: kept.stores })
  const beto = await site.hire('Beto', 'crew')
  await beto.phone.log(JOB, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  await syncRound(beto.phone)
  /** Another server of this house with another database, brought to where this one was after so many commits. */
  const serverAt = async (commits: number) => {
    const stores = await replay(kept.steps.slice(0, commits), site.stores.accounts)
    const { log, accounts, views } = stores
    const house = await createApp({ ...site.house.world, store: log, accounts, views })
    const go = (phone: Phone): Phone => ({ ...phone, wire: createWire(async (r) => house.app.fetch(r)) })
    return { stores, go }
  }
  return { site, beto, commits: () => kept.steps.length, serverAt }
}
export const evidenceOf = async ({ store }: Phone) =>
  (await store.transact((tx) => getMeta(tx, 'evidence'))) ?? []

/** What a server answers that is down. */
export const NO_ANSWER = { status: 503, headers: new Headers(), body: new Uint8Array() }
