import { wordOf } from './amounts.ts'
import { setTime } from './event-times.ts'
import type { Stage } from './facts.ts'
import { isTerm } from './items.ts'
import { type Mention, ofSentence, recent, type Sentence } from './sentence.ts'

/** How a reading came about: by eye, by the cone or the meter, as the driver says. */
export const readMethods = (sentence: Sentence): void => {
  const { items } = sentence
  for (const { draft, at, seg } of ofSentence(sentence)) {
    const back = items.slice(Math.max(0, at - 7), at).filter((i) => i.seg === seg || i.seg === seg - 1)
    const after = items.slice(at + 1, at + 6).filter((i) => i.seg === seg)
    if (draft.kind === 'reading.slump' && !draft.not_taken && !draft.method) {
      if ([...back, ...after].some((i) => isTerm(i, 'by-eye'))) {
        draft.method = 'estimated'
        draft.approx = true
      }
    }
    if (draft.value !== undefined && typeof draft.value === 'number' && !draft.approx && draft.value !== 0) {
      const hedge =
        back.slice(-3).some((i) => isTerm(i, 'approx', 'by') && !isTerm(i, 'at')) ||
        after
          .slice(0, 2)
          .some((i) => /^(?:or so|ish|and change|y pico|strong|give or take)$/.test(wordOf(i) ?? ''))
      if (hedge) draft.approx = true
    }
    if (draft.kind === 'load.water_added' && draft.value !== 0 && items.some((i) => isTerm(i, 'driver')))
      draft.reported_by = 'driver'
  }
}

/** Before or after the water: where it is said, or plain from slump, water, slump in one breath. */
export const readStages = (sentence: Sentence): void => {
  const { items, talk } = sentence
  const readings = ofSentence(sentence).filter(
    ({ draft }) => draft.kind === 'reading.slump' || draft.kind === 'reading.air',
  )
  for (const { draft, at, seg } of readings) {
    const near = items
      .map((item, i) => ({ item, i }))
      .filter(({ item, i }) => isTerm(item, 'before-water', 'after-water') && Math.abs(i - at) <= 8)
    const same = near.filter(({ item }) => item.seg === seg)
    const from =
      same.length > 0
        ? same
        : near.filter(({ i }) => draft.not_taken || (i < at && !readings.some((r) => r.at > i && r.at < at)))
    // Of two in one clause the nearer before it counts: `before water two and a half`.
    const pick = from.filter(({ i }) => i < at).at(-1) ?? from[0]
    if (pick) draft.stage = isTerm(pick.item, 'before-water') ? 'before_water' : 'after_water'
    else bareStage(sentence, { draft, at, seg, sentence: sentence.number })
  }
  const slumps = recent(talk).filter(
    (m) => m.draft.kind === 'reading.slump' && !m.draft.not_taken && m.sentence >= sentence.number - 1,
  )
  const water = recent(talk).filter(
    (m) => m.draft.kind === 'load.water_added' && m.draft.value !== 0 && m.sentence >= sentence.number - 1,
  )
  if (water.length !== 1) return
  const pour = { sentence: water[0]!.sentence, at: water[0]!.at }
  const before = slumps.filter(
    (m) => m.sentence < pour.sentence || (m.sentence === pour.sentence && m.at < pour.at),
  )
  const after = slumps.filter(
    (m) => m.sentence > pour.sentence || (m.sentence === pour.sentence && m.at > pour.at),
  )
  const so = items.some(
    (item, i) =>
      i > (before.at(-1)?.at ?? 0) &&
      i < pour.at &&
      /^(?:so|so we|then|and then|entonces|luego|y luego)$/.test(wordOf(item) ?? ''),
  )
  if (before.length === 1 && (after.length === 1 || so)) before[0]!.draft.stage ??= 'before_water'
  if (after.length === 1 && before.length === 1) after[0]!.draft.stage ??= 'after_water'
}

/** `before was three, after was five`: without the word water, where both are said. */
const bareStage = ({ items, amounts }: Sentence, { draft, at, seg }: Mention): void => {
  const both =
    items.some((item) => isTerm(item, 'before', 'before-water')) &&
    items.some((item) => isTerm(item, 'after', 'after-water'))
  if (!both) return
  const end = amounts.find((a) => a.at === at)?.end ?? at + 1
  const stageAt = (i: number): Stage | undefined => {
    const item = items[i]
    if (!item || item.seg !== seg) return undefined
    if (isTerm(item, 'before')) return 'before_water'
    return isTerm(item, 'after') && /^(?:after|afterwards?|despues)$/.test(wordOf(item) ?? '')
      ? 'after_water'
      : undefined
  }
  // `five before and seven after`: what follows the number straight away counts first.
  const stage =
    stageAt(end) ?? [1, 2, 3, 4].map((back) => stageAt(at - back)).find((one) => one !== undefined)
  if (stage) draft.stage = stage
}

/** A time that no event took belongs to the water or the reading of its clause. */
export const giveLeftTimes = (sentence: Sentence): void => {
  for (const time of sentence.times) {
    if (time.used || time.second) continue
    const own = ofSentence(sentence).filter((m) => m.seg === time.seg && takes(m))
    const near =
      own.length > 0 ? own : ofSentence(sentence).filter((m) => takes(m) && Math.abs(m.at - time.at) <= 6)
    const pick = near.sort((a, b) => Math.abs(a.at - time.at) - Math.abs(b.at - time.at))[0]
    if (!pick) continue
    time.used = true
    setTime(pick.draft, time, sentence.half)
  }
}

const takes = ({ draft }: Mention): boolean =>
  draft.at === undefined &&
  draft.min_ago === undefined &&
  !draft.not_taken &&
  (draft.kind === 'load.water_added' ||
    draft.kind === 'reading.slump' ||
    draft.kind === 'reading.air' ||
    /temperature$/.test(draft.kind) ||
    draft.kind === 'reading.cylinders')

/** `just now` on water. */
export const readJustNow = (sentence: Sentence): void => {
  const { items } = sentence
  for (const { draft, at, seg } of ofSentence(sentence)) {
    if (draft.kind !== 'load.water_added' || draft.value === 0) continue
    if (draft.at !== undefined || draft.min_ago !== undefined) continue
    const now = items.some(
      (item, i) =>
        item.seg === seg &&
        ((i < at &&
          i >= at - 4 &&
          isTerm(item, 'just') &&
          !items.slice(i, at).some((x) => isTerm(x, 'and'))) ||
          (i > at && i <= at + 5 && /^(?:just now|right now|ahorita)$/.test(wordOf(item) ?? ''))),
    )
    if (now) draft.min_ago = 0
  }
}
