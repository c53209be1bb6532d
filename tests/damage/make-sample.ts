import { writeFileSync } from 'node:fs'
import { makeGoodLog } from './good-log.ts'
import { recordBytes } from './make-good.ts'

/**
 * Writes a good record to the path given: `npx tsx tests/damage/make-sample.ts FILE [en|es] [hostile]`. The checker in
 * tests/spec-checker, which knows nothing of this program, is tried on it.
 */
const [file = 'record.zip', language = 'en', kind = ''] = process.argv.slice(2)
const good = await makeGoodLog({ hostile: kind === 'hostile' })
writeFileSync(file, await recordBytes(good, { language: language === 'es' ? 'es' : 'en' }))
