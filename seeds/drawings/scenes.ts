import { box, many, shape, stroke, WIDTH, words } from './paper.ts'
import { boards, COLORS, slab } from './site.ts'

/** A cone beside the concrete that slumped, with the rod across and the reading. */
export const cone = (reading: string): string =>
  [
    box(0, 0, WIDTH, 720, '#d9d4c8'),
    box(80, 560, 800, 40, COLORS.boardEdge),
    shape('170,560 390,560 330,230 230,230', '#c7ccd0', COLORS.line),
    `<path d="M 500 560 Q 520 380 610 370 Q 720 380 770 560 Z" fill="${COLORS.wet}" stroke="${COLORS.line}" stroke-width="4"/>`,
    stroke('M 210 230 H 780', '#3b4046', 10),
    stroke('M 640 238 V 368', '#a0220f', 5),
    words(660, 318, reading, 54, { weight: 700 }),
  ].join('')

/** The open edge under wet burlap. */
export const burlap = (): string =>
  [
    slab(COLORS.wet),
    shape('250,470 700,470 730,560 215,560', COLORS.cloth, '#6d5128'),
    many(26, (i) => stroke(`M ${240 + i * 18} 474 l -6 82`, '#8a6a3c', 2)),
    words(480, 450, '24 1/2 ft', 44, { weight: 700, anchor: 'middle' }),
  ].join('')

/** A chute, and a hand that makes the sign for water. */
export const waterSign = (): string =>
  [
    slab(COLORS.wet),
    shape('690,60 960,150 960,250 660,120', '#9aa1a6', COLORS.line),
    shape('560,330 690,60 660,120 520,350', '#9aa1a6', COLORS.line),
    `<circle cx="210" cy="240" r="56" fill="#d9a980" stroke="${COLORS.line}" stroke-width="4"/>`,
    box(155, 296, 110, 220, '#e07b1c', COLORS.line),
    stroke('M 262 320 Q 360 350 300 262', '#d9a980', 34),
    stroke('M 296 258 l -44 -8', '#d9a980', 26),
    shape('150,205 270,205 262,180 160,180', '#f2f2ee', COLORS.line),
    words(330, 210, 'a drinking hand', 34),
  ].join('')

/** Broom lines across a finished slab. */
export const broom = (joints: boolean): string =>
  [
    slab(COLORS.slab),
    many(44, (i) => {
      const y = 250 + i * 11
      const half = 60 + (y - 230) * 0.64
      return stroke(`M ${480 - half} ${y} H ${480 + half}`, '#a3a49f', 2)
    }),
    joints
      ? many(3, (i) => stroke(`M ${360 - i * 75} ${340 + i * 110} H ${600 + i * 75}`, COLORS.line, 7))
      : '',
    boards(),
  ].join('')

/** The wet sheen of a curing compound. */
export const sheen = (): string =>
  [
    slab('#c9cac5'),
    many(
      9,
      (i) =>
        `<ellipse cx="${420 + ((i * 67) % 120)}" cy="${320 + i * 36}" rx="${50 + i * 12}" ry="9" fill="#f3f4f2" opacity="0.8"/>`,
    ),
    boards(),
  ].join('')

/** Insulating blankets, lapped and weighed down. */
export const blankets = (): string =>
  [
    slab(COLORS.slab),
    shape('130,690 830,690 740,520 240,520', '#39424c', '#1c2228'),
    shape('225,540 755,540 670,390 310,390', '#434d58', '#1c2228'),
    shape('300,405 680,405 590,262 390,262', '#4d5864', '#1c2228'),
    many(4, (i) => box(300 + i * 100, 555, 60, 26, COLORS.board, COLORS.boardEdge)),
  ].join('')

/** A hairline across the drive; beside it a tape where one lies there. */
export const crack = (reading?: string): string =>
  [
    slab(COLORS.slab),
    stroke('M 262 470 l 60 8 l 48 -10 l 70 12 l 66 -6 l 58 9 l 72 -12 l 60 4', '#3c3f40', 3),
    ...(reading === undefined
      ? []
      : [stroke('M 420 232 L 330 626', COLORS.tape, 16), words(400, 560, reading, 50, { weight: 700 })]),
    boards(),
  ].join('')

/** Light scaling: the skin is gone in flakes and fine stone shows. */
export const scaling = (): string =>
  [
    slab(COLORS.slab),
    many(60, (i) => {
      const y = 440 + ((i * 53) % 180)
      const half = 60 + (y - 230) * 0.6
      const x = 480 - half + ((i * 149) % Math.floor(half * 2))
      return `<ellipse cx="${x}" cy="${y}" rx="${10 + (i % 7) * 3}" ry="${4 + (i % 4)}" fill="${i % 3 ? '#8f8c84' : '#75716a'}"/>`
    }),
    boards(),
  ].join('')
