import { ROLES } from '../entry/role.ts'
import type { Standing } from './access.ts'

const anyone: readonly Standing[] = ['nobody', 'withdrawn', ...ROLES]

/**
 * Who may do what. `nobody` is someone whom the server does not know: they may show a one-time code, prove that they
 * hold an enrolled device's key, or check a slip, and see nothing else. A withdrawn device may still push: its entries
 * are set aside until an owner decides.
 */
export const ACTIONS = {
  useCode: anyone,
  signIn: anyone,
  checkSlip: anyone,
  push: ['withdrawn', ...ROLES],
  read: ROLES,
  upload: ROLES,
  export: ['owner', 'foreman', 'office'],
  invite: ['owner', 'foreman'],
  decide: ['owner'],
} as const satisfies { readonly [action: string]: readonly Standing[] } as {
  readonly [A in
    | 'useCode'
    | 'signIn'
    | 'checkSlip'
    | 'push'
    | 'read'
    | 'upload'
    | 'export'
    | 'invite'
    | 'decide']: readonly Standing[]
}

export type Action = keyof typeof ACTIONS
