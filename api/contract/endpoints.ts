import type { Standing } from '../domain/access/access.ts'
import { ACTIONS, type Action } from '../domain/access/actions.ts'

export type Endpoint = {
  readonly method: 'GET' | 'POST' | 'PUT'
  /** Path pattern; `:name` stands for one segment. */
  readonly path: string
  readonly action: Action
}

/** Every route that the server has below `/api`. A test holds that the app has these and no others. */
export const ENDPOINTS = {
  setUpState: { method: 'POST', path: '/api/set-up/look', action: 'useCode' },
  setUp: { method: 'POST', path: '/api/set-up', action: 'useCode' },
  joinState: { method: 'POST', path: '/api/join/look', action: 'useCode' },
  join: { method: 'POST', path: '/api/join', action: 'useCode' },
  challenge: { method: 'POST', path: '/api/session/challenge', action: 'signIn' },
  session: { method: 'POST', path: '/api/session', action: 'signIn' },
  slip: { method: 'GET', path: '/api/slip', action: 'checkSlip' },
  push: { method: 'POST', path: '/api/push', action: 'push' },
  pull: { method: 'GET', path: '/api/pull', action: 'read' },
  live: { method: 'GET', path: '/api/live', action: 'read' },
  invite: { method: 'POST', path: '/api/invite', action: 'invite' },
  setAside: { method: 'GET', path: '/api/set-aside/:device', action: 'decide' },
  jobs: { method: 'GET', path: '/api/jobs', action: 'read' },
  job: { method: 'GET', path: '/api/jobs/:job', action: 'read' },
  jobSlip: { method: 'GET', path: '/api/jobs/:job/slip', action: 'read' },
  record: { method: 'GET', path: '/api/jobs/:job/record.zip', action: 'export' },
  photoState: { method: 'GET', path: '/api/photos/:hash/held', action: 'upload' },
  photoPart: { method: 'PUT', path: '/api/photos/:hash', action: 'upload' },
  photo: { method: 'GET', path: '/api/photos/:hash', action: 'read' },
  photoSmall: { method: 'GET', path: '/api/photos/:hash/small', action: 'read' },
  photoLarge: { method: 'GET', path: '/api/photos/:hash/large', action: 'read' },
  photoFacts: { method: 'GET', path: '/api/photos/:hash/facts', action: 'read' },
} as const satisfies { readonly [name: string]: Endpoint }

export type EndpointName = keyof typeof ENDPOINTS

export const mayUse = (endpoint: Endpoint, standing: Standing): boolean =>
  ACTIONS[endpoint.action].includes(standing)
