import * as z from 'zod/mini'
import { publicKey, words, zoneName } from '../../domain/entry/fields.ts'

const code = z.string().check(z.minLength(16), z.maxLength(64))

/** `look` asks what a code is for, without using it up. */
export const codeLook = z.strictObject({ code })

export const setUpLook = z.strictObject({ purpose: z.literal('set-up') })
export const joinLook = z.strictObject({
  purpose: z.literal('join'),
  company: z.string(),
  person: z.string(),
  /** Absent unless the code enrols a phone that the crew shares: the person answers for it then. */
  use: z.optional(z.literal('shared')),
})

/** Makes the company, its owner, and this device as its first. */
export const setUpRequest = z.strictObject({
  code,
  company: words(120),
  zone: zoneName,
  owner: words(60),
  key: publicKey,
  use: z.enum(['phone', 'office']),
})
export type SetUpRequest = z.infer<typeof setUpRequest>

/** Enrols this device for the person whom the code was made for. */
export const joinRequest = z.strictObject({ code, key: publicKey })
export type JoinRequest = z.infer<typeof joinRequest>

/** The answer to both; a session cookie comes with it. */
export const enrolled = z.strictObject({
  company: z.string(),
  origin: z.string(),
  /** The log's verifier key (SPEC L19): the device trusts the log by it from now on. */
  logKey: z.string(),
  device: z.string(),
  person: z.string(),
  name: z.string(),
  zone: z.string(),
  /** Absent unless it is a phone that the crew shares. */
  use: z.optional(z.literal('shared')),
})
export type Enrolled = z.infer<typeof enrolled>

/**
 * A code for a further device of a person who is already in the log by `person.added`; of a shared phone, the one who
 * answers for it.
 */
export const inviteRequest = z.strictObject({
  person: z.string(),
  use: z.enum(['phone', 'office', 'shared']),
})
export const invited = z.strictObject({ code: z.string(), path: z.string(), expiresAt: z.int() })
export type Invited = z.infer<typeof invited>
