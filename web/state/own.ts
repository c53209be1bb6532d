import { createMemo } from 'solid-js'
import type { OwnEntry, OwnState, PhotoKept } from '../sync/kept.ts'
import type { Snapshot } from './snapshot.ts'

/**
 * Where an entry is, as far as this phone knows. `on-server` only once its leaf was seen in the log and verified; an
 * entry of another device came from there.
 */
export type Where = 'on-phone' | 'sent' | 'on-server' | 'refused' | 'waits-for-server' | 'set-aside'

export type OwnEntries = {
  readonly whereIs: (hash: string) => Where
  readonly refused: () => readonly (OwnEntry & { readonly state: OwnState & { readonly is: 'refused' } })[]
  readonly setAside: () => number
  readonly waitsForServer: () => number
  /** Entries that the server has not taken yet. */
  readonly waiting: () => number
  /** Those among them that a further try could bring over now. */
  readonly unsent: () => number
  readonly photo: (hash: string) => PhotoKept | undefined
  readonly photosWaiting: () => number
  readonly photosRefused: () => readonly PhotoKept[]
}

export const createOwn = (snapshot: () => Snapshot | undefined): OwnEntries => {
  const own = createMemo(() => new Map((snapshot()?.own ?? []).map((e) => [e.hash, e.state])))
  const photos = createMemo(() => new Map((snapshot()?.photos ?? []).map((p) => [p.hash, p])))
  const countOf = (is: OwnState['is']) => [...own().values()].filter((state) => state.is === is).length
  return {
    whereIs: (hash) => whereOf(own().get(hash)),
    refused: () => (snapshot()?.own ?? []).filter(isRefused),
    setAside: () => countOf('set-aside'),
    waitsForServer: () => countOf('waits-for-server'),
    waiting: () => countOf('waiting') + countOf('waits-for-server'),
    unsent: () => countOf('waiting'),
    photo: (hash) => photos().get(hash),
    photosWaiting: () => [...photos().values()].filter((p) => !p.sent && p.refused === undefined).length,
    photosRefused: () => [...photos().values()].filter((p) => p.refused !== undefined),
  }
}

const isRefused = (e: OwnEntry): e is OwnEntry & { readonly state: OwnState & { readonly is: 'refused' } } =>
  e.state.is === 'refused'

const whereOf = (state: OwnState | undefined): Where => {
  if (!state) return 'on-server'
  if (state.is === 'waiting') return 'on-phone'
  if (state.is === 'kept') return state.landed ? 'on-server' : 'sent'
  return state.is
}
