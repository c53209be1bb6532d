import { describe, expect, test } from 'vitest'
import { KINDS } from '../../../api/domain/entry/registry.ts'
import type { Fact } from '../../../api/domain/phrase/facts.ts'
import { momentOf } from '../../../api/domain/phrase/moment.ts'
import { proposalsOf } from '../../../api/domain/phrase/proposals.ts'
import { readPhrase } from '../../../api/domain/phrase/read-phrase.ts'
import { spoken } from './score.ts'

const LOAD = '00000000-0000-7000-8000-000000000002'
const MOMENT = { at: '2026-04-21T09:41:30-05:00', zone: 'America/Chicago', lang: 'en', load: () => LOAD }
const propose = (said: string) => proposalsOf(readPhrase(said).facts, MOMENT)

describe('[propose] facts as entries', () => {
  test('[propose] one breath about a truck is an arrival and one ticket, which names what was not said', () => {
    const all = propose(
      'Truck two eighteen, ticket seven one three four oh, eight yards, batched seven oh five, just got here.',
    )
    expect(all).toEqual([
      {
        kind: 'load.arrived',
        body: { load: LOAD },
        missing: [],
        from: [4],
        occurredAt: '2026-04-21T09:41-05:00',
      },
      {
        kind: 'ticket.recorded',
        body: {
          load: LOAD,
          number: { is: 'given', text: '71340' },
          truck: { is: 'given', text: '218' },
          yards: { is: 'given', text: '8', unit: 'yd3' },
          batchedAt: { is: 'given', at: '2026-04-21T07:05-05:00' },
        },
        missing: ['limit'],
        from: [0, 1, 2, 3],
      },
    ])
  })

  test('[propose] every sentence of the lists proposes entries whose bodies are whole or say what they lack', () => {
    const wrong: string[] = []
    for (const file of [
      'utterances.tsv',
      'utterances-demo-day.tsv',
      'utterances-other-habits.tsv',
      'utterances-further.tsv',
      'utterances-last.tsv',
      'utterances-fourth.tsv',
    ])
      for (const { said } of spoken(file))
        for (const { kind, body, missing } of propose(said)) {
          const whole = KINDS[kind].today.safeParse(body).success
          if (whole !== (missing.length === 0))
            wrong.push(`${said} ${kind} ${JSON.stringify(body)} lacks ${missing.join()}`)
        }
    expect(wrong).toEqual([])
  })

  test('[propose] water by stage, none as none, and the driver’s word as the driver’s', () => {
    expect(propose('Sin agua.')[0]).toMatchObject({ kind: 'water.added', body: { amount: { is: 'none' } } })
    expect(propose('Driver says he put three gallons in on the way over.')[0]).toMatchObject({
      body: { amount: { text: '3', unit: 'gal' }, stage: 'in-transit', added: { called: 'driver' } },
    })
    expect(propose('Le echaron otros ocho galones, quedan como cinco yardas.')[0]).toMatchObject({
      body: { stage: 'after-discharge-began', inDrum: { yards: { text: '5' }, how: 'by-eye' } },
    })
  })

  test('[propose] a range is kept as said, a derived age is no ticket’s time, and doubt is passed on', () => {
    expect(propose('Slump four to five.')[0]).toMatchObject({ kind: 'remark.made' })
    expect(propose("This load's ninety minutes old already.").map(({ kind }) => kind)).toEqual([
      'remark.made',
    ])
    expect(propose("She's a six.")[0]).toMatchObject({ kind: 'slump.measured', ask: true, missing: ['how'] })
  })

  test('[propose] without a load the entry asks for one', () => {
    const [slump] = proposalsOf(readPhrase('Cone says four.').facts, { ...MOMENT, load: () => undefined })
    expect(slump?.missing).toEqual(['load'])
  })
})

describe('[propose] when', () => {
  const at = (fact: Partial<Fact>) => momentOf({ kind: 'load.arrived_at', ...fact }, MOMENT)

  test('[propose] a time of day is of the day of speech, the nearest past where no hour was said, or so many minutes ago', () => {
    expect(at({ at: '07:33' })).toBe('2026-04-21T07:33-05:00')
    expect(at({ at: '*:50' })).toBe('2026-04-21T08:50-05:00')
    expect(at({ at: '*:41' })).toBe('2026-04-21T09:41-05:00')
    expect(at({ min_ago: 10 })).toBe('2026-04-21T09:31-05:00')
    expect(at({})).toBeUndefined()
  })

  test('[propose] yesterday is the day before with its own offset, on the day that clocks went forward', () => {
    const sunday = { at: '2026-03-08T09:00:00-05:00', zone: 'America/Chicago' }
    expect(momentOf({ kind: 'load.arrived_at', at: '07:10', day: 'yesterday' }, sunday)).toBe(
      '2026-03-07T07:10-06:00',
    )
  })
})
