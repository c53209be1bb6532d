import * as z from 'zod/mini'

/** The list of jobs, newest first. */
export const jobsAnswer = z.strictObject({
  jobs: z.array(z.strictObject({ job: z.string(), name: z.string(), entries: z.int() })),
})

/**
 * A job as the server sees it: `model` is the record's page model (domain/record), the same that the phone computes
 * from its own copy of the entries.
 */
export const jobAnswer = z.strictObject({ job: z.string(), size: z.int(), model: z.unknown() })
