import type { PhoneStore } from '../../web/sync/phone-store.ts'
import { type Wire, type WireAnswer, WireDown, type WireRequest } from '../../web/sync/wire.ts'
import type { Chance } from '../kit/chance.ts'
import { tamper, tamperPush } from './tamper.ts'
import type { Turns } from './turns.ts'

/** How often things go wrong, each as a probability for one request. */
export type Weather = {
  /** Lost before the server saw it. */
  readonly lost: number
  /** Answered, and the answer lost. */
  readonly answerLost: number
  /** Arrives twice: once now, once when nobody waits for it. */
  readonly twice: number
  /** Arrives cut short, as a whole body or as one that breaks off. */
  readonly cut: number
  /** The answer arrives cut short. */
  readonly answerCut: number
  /** Answered by what was answered to the same question before. */
  readonly stale: number
  /** What the log says, or what it is told, is changed on its way by someone without a key. */
  readonly tampered: number
}
export const FINE: Weather = {
  lost: 0,
  answerLost: 0,
  twice: 0,
  cut: 0,
  answerCut: 0,
  stale: 0,
  tampered: 0,
}
export const ROUGH: Weather = {
  lost: 0.06,
  answerLost: 0.1,
  twice: 0.06,
  cut: 0.03,
  answerCut: 0.02,
  stale: 0.05,
  tampered: 0.15,
}

/** A wire that loses, doubles, cuts and delays. Delay is the turn at which the request, or its answer, is let through. */
export const createRoughWire = (given: {
  readonly name: string
  readonly wire: Wire
  readonly turns: Turns
  readonly chance: Chance
  readonly weather: () => Weather
  readonly store: PhoneStore
}): Wire => {
  const { name, turns, chance, weather, store } = given
  // Some phones are given the log in small pieces.
  const wire = chance.chance(0.3) ? inPieces(given.wire, 1 + chance.below(4)) : given.wire
  const before = new Map<string, WireAnswer>()
  return async (request) => {
    await turns.gate(`${name} ${request.method} ${request.path.split('?')[0]}`)
    const now = weather()
    if (chance.chance(now.lost)) throw new WireDown('lost')
    if (chance.chance(now.twice)) void later(turns, name, wire, request)
    if (chance.chance(now.cut)) {
      await wire(cutShort(request, chance))
      throw new WireDown('cut')
    }
    const kept = before.get(request.path)
    if (kept && chance.chance(now.stale)) return kept
    const isPush = request.path === '/api/push'
    const sent = isPush && chance.chance(now.tampered / 2) ? tamperPush(request, chance) : request
    const answer = await wire(sent)
    if (request.method === 'GET' && answer.status === 200) before.set(request.path, answer)
    if (now === FINE) return answer
    await turns.gate(`${name} answer`)
    if (chance.chance(weather().answerLost)) throw new WireDown('answer lost')
    if (chance.chance(weather().answerCut)) return { ...answer, body: cutBytes(answer.body, chance) }
    const isLog = answer.status === 200 && request.path.startsWith('/api/pull')
    return isLog && chance.chance(weather().tampered) ? tamper(answer, store, chance) : answer
  }
}

const inPieces =
  (wire: Wire, most: number): Wire =>
  (request) =>
    wire({ ...request, path: request.path.replace(/limit=\d+/, `limit=${most}`) })

const later = async (turns: Turns, name: string, wire: Wire, request: WireRequest): Promise<void> => {
  await turns.gate(`${name} again`)
  await wire(request).catch(() => {})
}

const cutBytes = (bytes: Uint8Array, chance: Chance): Uint8Array =>
  bytes.slice(0, chance.below(bytes.length || 1))

const cutShort = (request: WireRequest, chance: Chance): WireRequest => {
  const body = request.body
  if (body === undefined || body.length === 0) return request
  return { ...request, body: body.slice(0, chance.below(body.length)) }
}
