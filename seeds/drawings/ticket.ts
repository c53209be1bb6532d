import { box, many, stroke, WIDTH } from './paper.ts'

/** What one ticket says apart from what all three do. */
export type Paper = {
  readonly ticket: string
  readonly load: string
  readonly truck: string
  readonly driver: string
  readonly yards: string
  readonly delivered: string
  readonly ordered: string
  readonly batched: string
  readonly printed: string
  readonly left: string
  readonly most: string
  readonly water: string
  readonly mayAdd: string
  readonly added: string
  readonly asked: string
  readonly onJob: string
  readonly begin: string
  readonly end: string
  readonly leave: string
  readonly curb: string
  readonly received: string
}

/** A supplier's ticket of our own layout, held against a board out of the wind. */
export const ticketPaper = (p: Paper): string => {
  const lines = [
    `QUILLBACK READY-MIX  PLANT 2       TICKET ${p.ticket}   04/21/26`,
    `SOLD TO  BRINDLEFORK FLATWORK      ORDER 3306  LOAD ${p.load}`,
    'DELIVER  418 TERN CT, WENMARK      PO PELLOWICK',
    `TRUCK ${p.truck}  DRIVER ${p.driver.padEnd(8)}         CURB RELEASE: ${p.curb}`,
    `QTY THIS LOAD ${p.yards} CY  DELIVERED ${p.delivered}  ORDERED ${p.ordered}`,
    'MIX QB-45A 4500 PSI 3/4 AIR 5-8% SLUMP 4.00 DRIVE/WALK',
    'CEMENTITIOUS 580 LB/CY   MAX W/CM 0.45',
    `BATCHED ${p.batched}  PRINTED ${p.printed}  LEFT PLANT ${p.left}`,
    'DISCHARGE LIMIT 90 MIN TO END OF DISCHARGE',
    `WATER DESIGN MAX ${p.most} GAL  BATCHED ${p.water}  MAY ADD ${p.mayAdd} GAL`,
    `ADDED ON JOB ${p.added} GAL  REQUESTED BY ${p.asked}  REV ____`,
    `ON JOB ${p.onJob}  BEGIN ${p.begin}  END ${p.end}  LEAVE ${p.leave}`,
    `FUEL 22.00  ENV 3.50/CY            RECEIVED BY ${p.received}`,
  ]
  return [
    box(0, 0, WIDTH, 720, '#b08a55'),
    many(12, (i) => stroke(`M 0 ${i * 58} H ${WIDTH}`, '#9c7845', 2)),
    box(40, 24, 880, 590, '#fdfbf2', '#8a8578'),
    ...lines.map(
      (line, i) =>
        `<text x="62" y="${72 + i * 42}" font-size="26" fill="#23262a" xml:space="preserve">${line.replaceAll('&', '&amp;')}</text>`,
    ),
  ].join('')
}
