import * as z from 'zod/mini'

export const challengeAnswer = z.strictObject({ nonce: z.string() })

/** The signature (base64) is over the text of `sessionText`: nothing else that a device signs begins like it. */
export const sessionRequest = z.strictObject({
  company: z.string(),
  device: z.string(),
  nonce: z.string(),
  signature: z.string(),
})
export const sessionAnswer = z.strictObject({ device: z.string(), expiresAt: z.int() })

export const sessionText = (company: string, device: string, nonce: string): string =>
  `screedbook-session/v1\n${company}\n${device}\n${nonce}\n`
