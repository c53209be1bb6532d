import { getRequestListener } from '@hono/node-server'
import { invited } from '../../api/contract/messages/enrol.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { VOCABULARY } from '../../api/domain/entry/registry.ts'
import { createPhotoMemory } from '../../api/server/photo/photo-memory.ts'
import { makeSetUpCode } from '../../api/server/routes/enrol.ts'
import { sha256 } from '../../api/server/senses.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { getMeta } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import { createChance } from '../kit/chance.ts'
import { openHouse } from '../kit/house.ts'
import { createIdealSignatures, type Signatures } from '../kit/ideal-signatures.ts'
import { live, logNow, type Site } from './day.ts'
import { FINE, ROUGH, type Weather } from './network.ts'
import { makePlan, type Plan } from './plan.ts'
import { createSimServer, type SimServer } from './server.ts'
import { createSimPhone, healed, type Sim, type SimPhone } from './sim-phone.ts'
import { createTroubles } from './troubles.ts'
import { createTurns, type Turns } from './turns.ts'

// As the server that is shipped has them: they are lighter than those of the platform.
getRequestListener(() => new Response())

const START = Date.UTC(2026, 3, 21, 12, 0, 0)

/** A checkpoint that a phone believed at some moment of the day. */
export type Believed = { readonly phone: string; readonly size: number; readonly root: string }
export type SlipHandedOut = { readonly origin: string; readonly size: string; readonly root: string }

export type Simulated = {
  readonly plan: Plan
  readonly site: Site
  /** Those that are there at the end, and those whose storage was thrown away before. */
  readonly phones: readonly SimPhone[]
  readonly past: readonly SimPhone[]
  /** The names of phones that came to rest without being in step: the server, or they, had stopped. */
  readonly stopped: ReadonlySet<string>
  readonly server: SimServer
  readonly believed: readonly Believed[]
  readonly slips: readonly SlipHandedOut[]
  readonly photoBytes: (hash: string) => Promise<Uint8Array | undefined>
  readonly turns: Turns
}

/** Everything that is one and the same for the whole day. */
export type Day = Sim & {
  readonly plan: Plan
  readonly site: Site
  readonly phones: SimPhone[]
  readonly past: SimPhone[]
  /** Who serves a phone. */
  readonly serverOf: (name: string) => SimServer
  /** Sends all phones, or those named, to another server from now on. */
  readonly route: (server: SimServer, names?: ReadonlySet<string>) => void
  /** Another server in the same house, over what was written up to then. */
  readonly build: (from: SimServer, written: number) => Promise<SimServer>
  readonly hire: (name: string, role: SimPhone['role'], person?: string) => Promise<SimPhone>
  readonly calm: <T>(work: () => Promise<T>) => Promise<T>
}

/**
 * A day of two to six devices and a server, all product code, over a world that the seed decides: a network that loses,
 * doubles, cuts, delays and repeats, phones that lose power between write and flush, a server that dies before the
 * commit, after it, or between commit and answer, and one great trouble. It ends in fine weather; `oracle` says whether
 * any promise was broken.
 */
export const simulate = async (
  seed: number,
  signatures: Signatures = createIdealSignatures(),
): Promise<Simulated> => {
  const chance = createChance(seed)
  const plan = makePlan(chance)
  const turns = createTurns(chance)
  let weather: Weather = FINE
  let now = START
  const time = (): number => {
    now += 1 + chance.below(5_000)
    return now
  }
  // The server's own clock is set back now and then: times of receipt are written as read.
  const serverTime = (): number => (weather !== FINE && chance.chance(0.02) ? time() - 3_600_000 : time())
  const photos = createPhotoMemory(sha256)
  const reports: unknown[] = []
  const house = await openHouse({
    chance,
    now: serverTime,
    signatures,
    photos,
    report: (error) => reports.push(error),
  })
  const first = plan.updatedAt === undefined ? {} : { vocabulary: 1 }
  const world = { ...house.world, ...first, mono: time }
  const serve = { turns, chance, processes: plan.processes }
  let main = await createSimServer({ ...serve, world })
  const others = new Map<string, SimServer>()
  const sim: Sim = { chance, turns, time, weather: () => weather, signatures }
  const serverOf = (name: string): SimServer => others.get(name) ?? main
  const sendAs = (name: string) => (request: Request) => serverOf(name).send(request)

  const owner = createSimPhone('curt', 'owner', sim, sendAs('curt'))
  const { accounts, views, log } = main.stores
  const code = await makeSetUpCode({ ...world, accounts, views, store: log })
  await turns.until(owner.phone.setUp(code!))
  const { company } = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  const newId = () => uuidV7(time(), chance.bytes)
  const jobs = Array.from({ length: 1 + chance.below(2) }, newId)
  const phones = [owner]
  const past: SimPhone[] = []

  const calm: Day['calm'] = async (work) => {
    const before = weather
    const trouble = main.trouble
    weather = FINE
    main.trouble = false
    const value = await work()
    weather = before
    main.trouble = trouble
    return value
  }
  const day: Day = {
    ...sim,
    plan,
    site: { company, jobs },
    phones,
    past,
    serverOf,
    route: (server, names) => {
      if (names) for (const name of names) others.set(name, server)
      else {
        others.clear()
        main = server
      }
    },
    build: (from, written) => createSimServer({ ...serve, world, from: from.written.slice(0, written) }),
    calm,
    hire: async (name, role, known) => {
      const person = known ?? newId()
      if (!known) owner.said.add(await owner.phone.log(company, 'person.added', { person, name, role }))
      await turns.until(syncRound(owner.phone))
      const use = role === 'office' ? 'office' : 'phone'
      const asked = owner.phone.wire({ method: 'POST', path: '/api/invite', ...jsonBody({ person, use }) })
      const invitation = readAnswer(await turns.until(asked), invited)
      if (!invitation.ok) throw new Error(`no invitation: ${invitation.refused.code}`)
      const phone = createSimPhone(name, role, sim, sendAs(name))
      await turns.until(phone.phone.join(invitation.value.code))
      phones.push(phone)
      return phone
    },
  }
  for (const job of jobs)
    owner.said.add(await owner.phone.log(job, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' }))
  if (plan.office) await day.hire('ines', 'office')
  for (let i = 0; i < plan.crew; i++) await day.hire(`crew ${i + 1}`, i === 0 ? 'foreman' : 'crew')

  const believed: Believed[] = []
  const slips: SlipHandedOut[] = []
  const troubles = createTroubles(day)
  weather = ROUGH
  for (let step = 0; step < plan.steps; step++) {
    for (const server of new Set([main, ...others.values()])) server.trouble = true
    if (chance.chance(0.5)) void killSoon(day)
    await turns.until(Promise.all(phones.map((p) => live(p, sim, day.site))))
    for (const p of phones) await noteBelief(p, believed)
    if (step === plan.updatedAt) await main.update(VOCABULARY)
    if (chance.chance(0.2)) await calm(() => takeSlip(day, chance.pick(phones), slips))
    await troubles.after(step)
  }
  weather = FINE
  // Longer than anything waits before it is tried again.
  now += 3_600_000
  if (plan.updatedAt !== undefined) await main.update(VOCABULARY)
  main.trouble = false
  const stopped = new Set<string>()
  // On some days there is something new to say to a server that was put back; on the others it must find out all the same.
  if (chance.chance(0.5)) for (const p of phones) if (chance.chance(0.7)) await logNow(p, day.site)
  // First all push; then all see what the others pushed, and whoever came before the last of it once more.
  for (const p of phones) await turns.until(syncRound(p.phone))
  for (let behind = phones; behind.length > 0; ) {
    for (const p of behind) if ((await healed(p, turns)) === 'stopped') stopped.add(p.name)
    behind = await behindOf(day, stopped)
  }
  for (const p of phones) await noteBelief(p, believed)
  const photoBytes = async (hash: string) => {
    const file = await photos.open(company, hash)
    return file && new Uint8Array(await new Response(file.stream).arrayBuffer())
  }
  return {
    plan,
    site: day.site,
    phones,
    past,
    stopped,
    server: main,
    believed,
    slips,
    photoBytes,
    turns,
  }
}

/** One process dies at some moment of the step, wherever it is then. */
const killSoon = async ({ chance, turns, serverOf, phones, weather }: Day): Promise<void> => {
  for (let i = chance.below(12); i >= 0; i--) await turns.gate('a kill comes nearer')
  if (weather() !== FINE) await serverOf(chance.pick(phones).name).kill()
}

const noteBelief = async (p: SimPhone, all: Believed[]): Promise<void> => {
  const log = await p.store.transact((tx) => getMeta(tx, 'company-log'))
  if (!log) return
  const [, size, root] = log.note.split('\n')
  all.push({ phone: p.name, size: Number(size), root: root! })
}

/** Who has not seen the newest of the log, of those who can. */
const behindOf = async (day: Day, stopped: ReadonlySet<string>): Promise<SimPhone[]> => {
  const newest = (await day.serverOf('curt').stores.log.company(day.site.company))!.frontier.size
  const behind: SimPhone[] = []
  for (const p of day.phones) {
    const seen = await p.store.transact((tx) => getMeta(tx, 'company-log'))
    if (!stopped.has(p.name) && (seen?.frontier.size ?? 0) < newest) behind.push(p)
  }
  return behind
}

/** Somebody at the site is handed a slip. */
const takeSlip = async (day: Day, by: SimPhone, slips: SlipHandedOut[]): Promise<void> => {
  const job = day.chance.pick(day.site.jobs)
  const answer = await day.turns.until(by.phone.wire({ method: 'GET', path: `/api/jobs/${job}/slip` }))
  if (answer.status !== 200) return
  const { slip } = JSON.parse(new TextDecoder().decode(answer.body)) as { slip: string }
  const [, origin, size, root] = slip.split('\n')
  slips.push({ origin: origin!, size: size!, root: root! })
}
