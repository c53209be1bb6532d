import { readSize } from '../../domain/log/checkpoint.ts'
import { readRequest } from '../../domain/record/request.ts'
import { LANGUAGES, type Language } from '../../domain/words/words.ts'
import { problem } from '../middleware/problem.ts'
import { known } from './route.ts'

/**
 * The record of a job as a ZIP, streamed; `?language=es` and `?checkpoint=SIZE` as asked for, and of what: `?load=ID`,
 * `?placement=ID`, `?from=DAY`, `?to=DAY`, `?withhold=personal` or a kind, as often as needed.
 */
export const record = known(async (c, { world }, asker) => {
  const job = c.req.param('job') ?? ''
  const asked = c.req.query('language') ?? 'en'
  const language = LANGUAGES.find((l): l is Language => l === asked)
  const size = c.req.query('checkpoint')
  const checkpointSize = size === undefined ? undefined : readSize(size)
  if (!language) return problem(c, 'request-malformed', { at: '/language' })
  if (size !== undefined && !checkpointSize) return problem(c, 'request-malformed', { at: '/checkpoint' })
  const scope = readRequest({
    load: c.req.query('load'),
    placement: c.req.query('placement'),
    from: c.req.query('from'),
    to: c.req.query('to'),
    withhold: c.req.queries('withhold'),
  })
  if (!scope.ok)
    return problem(c, 'request-malformed', {
      at: scope.problem.code.startsWith('request-kind') ? '/withhold' : `/${scope.problem.at}`,
    })
  if (job === asker.company) return problem(c, 'not-found')
  const zip = await world.record({
    company: asker.company,
    job,
    language,
    checkpointSize,
    scope: scope.value,
  })
  if (!zip) return problem(c, 'not-found')
  return c.body(zip, 200, {
    'content-type': 'application/zip',
    'content-disposition': `attachment; filename="record-${job}.zip"`,
  })
})
