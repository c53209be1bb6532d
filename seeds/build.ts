import { readFile } from 'node:fs/promises'
import type { Happening } from '../api/domain/entry/make.ts'
import { uuidV7 } from '../api/domain/entry/make.ts'
import type { BodyOf, Kind } from '../api/domain/entry/registry.ts'
import type { Role } from '../api/domain/entry/role.ts'
import { createApp } from '../api/server/app.ts'
import { noPhotoViews } from '../api/server/photo/views/photo-views.ts'
import { makeSetUpCode } from '../api/server/routes/enrol.ts'
import type { ServerWorld } from '../api/server/world.ts'
import { logEntry } from '../web/sync/log-entry.ts'
import { keepPhoto } from '../web/sync/photos.ts'
import { seededBytes } from './chance.ts'
import { createClock, momentOf, type ScenarioClock } from './clock.ts'
import { createDevice, type Device } from './device.ts'
import { isSnap, type Said, type Snap, type Step } from './step.ts'

/** A job as data: who is there, with which devices, and all that they log. */
export type Scenario<D extends string = string, P extends string = string> = {
  readonly seed: string
  readonly zone: string
  readonly company: string
  readonly job: string
  /** The person who sets the company up comes first. */
  readonly people: readonly { readonly person: P; readonly name: string; readonly role: Role }[]
  /** The first is the one that the company is set up on; the others join by code. */
  readonly devices: readonly { readonly device: D; readonly person: P; readonly use: 'phone' | 'office' }[]
  /** When the company is set up. */
  readonly setUpAt: string
  readonly photos: URL
  /** Stretches in which a device has no network: what it logs then is sent at their end. */
  readonly offline: readonly { readonly device: D; readonly from: string; readonly to: string }[]
  readonly steps: (people: Readonly<Record<P, string>>) => readonly Step<D>[]
}

export type Built<P extends string = string> = {
  readonly company: string
  readonly job: string
  readonly people: Readonly<Record<P, string>>
}

/**
 * Logs a scenario through the app's front door: set-up link, codes, pushes by the phones' own sync, uploads. Phones and
 * server go by the scenario's clock, and chance is seeded, so that a second run over the same keys gives the same bytes.
 * The world has to hold no company yet. Fails by exception: whatever is refused is a mistake in the scenario.
 */
export const buildScenario = async <D extends string, P extends string>(
  scenario: Scenario<D, P>,
  world: ServerWorld,
): Promise<Built<P>> => {
  const { zone, seed } = scenario
  const clock = createClock(momentOf(scenario.setUpAt, zone).ms)
  const random = seededBytes(`${seed} server`)
  const server: ServerWorld = {
    ...world,
    now: clock.now,
    mono: clock.now,
    random,
    boot: uuidV7(clock.now(), random),
    // Photos are looked at when somebody asks for them.
    photoViews: noPhotoViews,
  }
  const { app, close } = await createApp(server)
  try {
    const crew = await joinAll(scenario, server, clock, (request) => app.fetch(request))
    await logAll(scenario, crew, clock)
    return { company: crew.company, job: scenario.job, people: crew.people }
  } finally {
    await close()
  }
}

type Crew<D extends string, P extends string> = {
  readonly company: string
  readonly people: Readonly<Record<P, string>>
  readonly devices: ReadonlyMap<D, Device>
}

const joinAll = async <D extends string, P extends string>(
  scenario: Scenario<D, P>,
  server: ServerWorld,
  clock: ScenarioClock,
  answer: (request: Request) => Response | Promise<Response>,
): Promise<Crew<D, P>> => {
  const { zone, seed } = scenario
  const unbox = (device: D) =>
    createDevice({ zone, clock, answer, chance: seededBytes(`${seed} device ${device}`) })
  const code = await makeSetUpCode(server)
  if (code === undefined) throw new Error('a scenario is built where there is no company yet')
  const [owner, ...others] = scenario.people
  const [first, ...more] = scenario.devices
  const firstDevice = unbox(first!.device)
  const { company, person } = await firstDevice.setUp(code, scenario.company, owner!.name)
  const chance = seededBytes(`${seed} people`)
  const ids = new Map<P, string>([[owner!.person, person]])
  for (const { person: key, name, role } of others) {
    const id = uuidV7(clock.now(), chance)
    ids.set(key, id)
    await logOn(firstDevice, company, 'person.added', { person: id, name, role })
  }
  await firstDevice.sync()
  const devices = new Map<D, Device>([[first!.device, firstDevice]])
  for (const { device, person: key, use } of more) {
    const joining = unbox(device)
    await joining.join(await firstDevice.invite(ids.get(key)!, use))
    await joining.sync()
    devices.set(device, joining)
  }
  return { company, people: Object.fromEntries(ids) as Record<P, string>, devices }
}

const logOn = <K extends Kind>(device: Device, job: string, kind: K, body: BodyOf<K>): Promise<string> => {
  const world = device.world()
  return logEntry(world, { job, kind, body, occurredAt: world.localTime(), source: 'tap' })
}

const logAll = async <D extends string, P extends string>(
  scenario: Scenario<D, P>,
  crew: Crew<D, P>,
  clock: ScenarioClock,
): Promise<void> => {
  const { zone } = scenario
  const named = new Map<string, string>()
  const startedOn = new Map<D, string>()
  const deviceOf = (name: D): Device => crew.devices.get(name)!
  const ends = [...scenario.offline]
  for (const { step, ms, day } of inTurn(scenario.steps(crew.people), zone)) {
    // What waited for the network goes out as soon as there is one, before anything that is logged later.
    for (const end of ends.filter(({ to }) => momentOf(to, zone).ms <= ms)) {
      clock.goTo(momentOf(end.to, zone).ms)
      await deviceOf(end.device).sync()
      ends.splice(ends.indexOf(end), 1)
    }
    clock.goTo(ms)
    const device = deviceOf(step.on)
    if (startedOn.get(step.on) !== day) device.start()
    startedOn.set(step.on, day)
    if (isSnap(step)) await takePhoto(scenario, device, step)
    else await say(scenario, device, step, named)
    const offline = scenario.offline.some(
      ({ device: name, from, to }) =>
        name === step.on && momentOf(from, zone).ms <= ms && ms < momentOf(to, zone).ms,
    )
    if (!offline) await device.sync()
  }
  for (const device of crew.devices.values()) await device.sync()
}

const MINUTE_MS = 60_000

type Turn<D extends string> = { readonly step: Step<D>; readonly ms: number; readonly day: string }

/** In the order in which they are logged; those of one minute are spread over it, as hands are not that quick. */
const inTurn = <D extends string>(steps: readonly Step<D>[], zone: string): Turn<D>[] => {
  const minutes = new Map<string, Step<D>[]>()
  for (const step of steps) {
    const minute = step.logged ?? step.at
    minutes.set(minute, [...(minutes.get(minute) ?? []), step])
  }
  return [...minutes]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([minute, all]) =>
      all.map((step, i) => {
        const into = Math.floor(((i + 0.6) / all.length) * 0.9 * MINUTE_MS)
        return { step, ms: momentOf(minute, zone).ms + into, day: minute.slice(0, 10) }
      }),
    )
}

/** A tap says now; what is typed in later says the minute that it is remembered by. */
const whenOf = (scenario: Scenario, device: Device, step: Step): string =>
  step.logged === undefined ? device.world().localTime() : momentOf(step.at, scenario.zone).local

const say = async (
  scenario: Scenario,
  device: Device,
  step: Said<string>,
  named: Map<string, string>,
): Promise<void> => {
  const { kind, body, corrects, why, name } = step
  const corrected = corrects === undefined ? undefined : named.get(corrects)
  if (corrects !== undefined && corrected === undefined) throw new Error(`nothing is named ${corrects}`)
  const happening = {
    job: scenario.job,
    kind,
    body,
    occurredAt: whenOf(scenario, device, step),
    source: 'tap',
    ...(corrected === undefined ? {} : { corrects: [corrected] }),
    ...(why ? { why } : {}),
  } as Happening<Kind>
  const hash = await logEntry(device.world(), happening)
  if (name !== undefined) named.set(name, hash)
}

const takePhoto = async (scenario: Scenario, device: Device, step: Snap<string>): Promise<void> => {
  const { photo, shows, load, part, where } = step
  const bytes = new Uint8Array(await readFile(new URL(`${photo}.jpg`, scenario.photos)))
  const world = device.world()
  const occurredAt = whenOf(scenario, device, step)
  const type = 'image/jpeg'
  const hash = await keepPhoto(world, bytes, type)
  await logEntry(world, {
    job: scenario.job,
    kind: 'photo.taken',
    body: { photo: hash, bytes: bytes.length, type, shows, load, part, where },
    occurredAt,
    source: 'photo',
    evidence: [hash],
  })
}
