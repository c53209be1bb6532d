import * as z from 'zod/mini'

export const ROLES = ['owner', 'foreman', 'crew', 'office'] as const
export type Role = (typeof ROLES)[number]
export const role = z.enum(ROLES)
