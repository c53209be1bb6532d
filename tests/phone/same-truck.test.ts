import { describe, expect, test } from 'vitest'
import { emptyLoad } from '../../api/domain/job/fold.ts'
import type { HistoryLine, LoadView, Said, Ticket } from '../../api/domain/job/view.ts'
import { lookalikes } from '../../web/state/same-truck.ts'

const said = <T>(value: T, hash: string): Said<T> => ({
  hash,
  value,
  at: '2026-04-21T09:38-05:00',
  late: false,
  ahead: false,
})

type Given = {
  readonly at?: string
  readonly ticket?: string
  readonly truck?: string
  readonly device?: string
}

/** Loads as a phone of `device` would log them; the device stands in the entry of the arrival. */
const pairs = (...given: readonly Given[]) => {
  const lines = new Map<string, HistoryLine>()
  const loads = given.map(({ at, ticket, truck, device = 'curt' }, i): LoadView => {
    lines.set(`arrived-${i}`, { entry: { device } } as unknown as HistoryLine)
    const paper: Ticket = {
      number: ticket === undefined ? { is: 'not-stated' } : { is: 'given', text: ticket },
      truck: truck === undefined ? { is: 'not-stated' } : { is: 'given', text: truck },
      yards: { is: 'not-stated' },
      batchedAt: { is: 'not-stated' },
      limit: { is: 'not-stated' },
    }
    return {
      id: `load-${i}`,
      ordinal: i + 1,
      joined: [],
      ...emptyLoad(),
      ...(at === undefined ? {} : { arrived: [said(`2026-04-21T${at}-05:00`, `arrived-${i}`)] }),
      ...((ticket ?? truck) ? { ticket: [said(paper, `ticket-${i}`)] } : {}),
    }
  })
  return lookalikes(loads, (hash) => lines.get(hash)).map(({ first, second }) => [
    first.ordinal,
    second.ordinal,
  ])
}

/** Common practice, no source: trucks come a quarter of an hour and more apart, and a truck that comes again was at the plant. */
describe('[join] two loads that look like one truck', () => {
  test('[join] arrivals within ten minutes on two phones are asked about; later ones are not', () => {
    expect(pairs({ at: '09:38' }, { at: '09:41', device: 'beto' })).toEqual([[1, 2]])
    expect(pairs({ at: '09:38' }, { at: '09:49', device: 'beto' })).toEqual([])
  })

  test('[join] two touches on one phone mean two trucks', () => {
    expect(pairs({ at: '09:38' }, { at: '09:41' })).toEqual([])
  })

  test('[join] one ticket number is one load at any time of day, written small or large', () => {
    expect(
      pairs({ at: '07:33', ticket: 'a-71340' }, { at: '12:00', ticket: 'A-71340', device: 'beto' }),
    ).toEqual([[1, 2]])
  })

  test('[join] two ticket numbers are two loads, however near they came', () => {
    expect(pairs({ at: '09:38', ticket: '71352' }, { at: '09:38', ticket: '71353', device: 'beto' })).toEqual(
      [],
    )
  })

  test('[join] the truck that came at seven and comes again at eleven is asked about with no one', () => {
    expect(pairs({ at: '07:33', truck: '218' }, { at: '10:47', truck: '218', device: 'beto' })).toEqual([])
    expect(pairs({ at: '07:33', truck: '218' }, { at: '07:50', truck: '218', device: 'beto' })).toEqual([
      [1, 2],
    ])
    expect(pairs({ at: '09:38', truck: '218' }, { at: '09:38', truck: '106', device: 'beto' })).toEqual([])
  })

  test('[join] of a load with no time and no number nothing is asked', () => {
    expect(pairs({}, { at: '09:38', device: 'beto' })).toEqual([])
  })
})
