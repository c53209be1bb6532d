import { type Wire, WireDown, type WireRequest } from '../../web/sync/wire.ts'
import type { Chance } from '../kit/chance.ts'
import type { Turns } from './turns.ts'

/** How often things go wrong, each as a probability for one request. */
export type Weather = {
  /** Lost before the server saw it. */
  readonly lost: number
  /** Answered, and the answer lost. */
  readonly answerLost: number
  /** Arrives twice: once now, once when nobody waits for it. */
  readonly twice: number
  /** Arrives cut short. */
  readonly cut: number
}
export const FINE: Weather = { lost: 0, answerLost: 0, twice: 0, cut: 0 }

/** A wire that loses, doubles, cuts and delays. Delay is the turn at which the request is let through. */
export const createRoughWire = (given: {
  readonly name: string
  readonly wire: Wire
  readonly turns: Turns
  readonly chance: Chance
  readonly weather: () => Weather
}): Wire => {
  const { name, wire, turns, chance, weather } = given
  return async (request) => {
    await turns.gate(`${name} ${request.method} ${request.path.split('?')[0]}`)
    const now = weather()
    if (chance.chance(now.lost)) throw new WireDown('lost')
    if (chance.chance(now.twice)) void later(turns, name, wire, request)
    if (chance.chance(now.cut)) {
      await wire(cutShort(request, chance))
      throw new WireDown('cut')
    }
    const answer = await wire(request)
    await turns.gate(`${name} answer`)
    if (chance.chance(weather().answerLost)) throw new WireDown('answer lost')
    return answer
  }
}

const later = async (turns: Turns, name: string, wire: Wire, request: WireRequest): Promise<void> => {
  await turns.gate(`${name} again`)
  await wire(request).catch(() => {})
}

const cutShort = (request: WireRequest, chance: Chance): WireRequest => {
  const body = request.body
  if (body === undefined || body.length === 0) return request
  return { ...request, body: body.slice(0, chance.below(body.length)) }
}
