import type { Context } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import { type Standing, standingOn } from '../../domain/access/access.ts'
import type { Device, Person } from '../../domain/access/members.ts'
import { toBase64, toHex, toUtf8 } from '../../domain/log/encoding.ts'
import type { Sequencer } from '../log/sequencer.ts'
import type { ServerWorld } from '../world.ts'

/** Who asks, found out anew at each request: a withdrawn device stands so from the next request on. */
export type Asker =
  | { readonly standing: 'nobody' }
  | {
      readonly standing: Exclude<Standing, 'nobody'>
      readonly company: string
      readonly origin: string
      readonly device: Device
      readonly person: Person
    }
export type Known = Exclude<Asker, { standing: 'nobody' }>

const COOKIE = 'screedbook_session'
const SESSION_MS = 30 * 24 * 3600 * 1000

/** Secrets are stored as their SHA-256 alone. */
export const secretHash = (secret: string, world: ServerWorld): string => toHex(world.sha256(toUtf8(secret)))

/** 128 bits, in letters that survive a link: for codes, sessions and challenges. */
export const newSecret = (world: ServerWorld): string =>
  toBase64(world.random(16)).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')

export const openSession = async (
  c: Context,
  world: ServerWorld,
  company: string,
  device: string,
): Promise<number> => {
  const token = newSecret(world)
  const expiresAt = world.now() + SESSION_MS
  await world.accounts.putSession({ tokenHash: secretHash(token, world), company, device, expiresAt })
  const secure = new URL(c.req.url).protocol === 'https:' || c.req.header('x-forwarded-proto') === 'https'
  setCookie(c, COOKIE, token, {
    httpOnly: true,
    sameSite: 'Strict',
    path: '/',
    secure,
    maxAge: SESSION_MS / 1000,
  })
  return expiresAt
}

export const whoAsks = async (c: Context, world: ServerWorld, sequencer: Sequencer): Promise<Asker> => {
  const token = getCookie(c, COOKIE)
  if (!token) return { standing: 'nobody' }
  const session = await world.accounts.session(secretHash(token, world), world.now())
  if (!session) return { standing: 'nobody' }
  const { members } = await sequencer.state(session.company)
  const device = members.devices.get(session.device)
  const person = device?.person === undefined ? undefined : members.people.get(device.person)
  if (!device || !person || !members.company) return { standing: 'nobody' }
  const { origin } = members.company
  return {
    standing: device.withdrawn ? 'withdrawn' : standingOn(device.use, person.role),
    company: session.company,
    origin,
    device,
    person,
  }
}
