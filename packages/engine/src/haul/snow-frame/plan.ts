import type { BoxBody } from '../../box/index.ts'
import type { SnowFrame } from '../../job/index.ts'
import type { MassItem, SnowFramePlan } from '../result.ts'
import { amount } from '../shelf.ts'
import { bearerOf, deckOf, SEAT } from './parts.ts'
import { levelsOf, railsOf, spacesOf } from './place.ts'
import { BOLTS } from './search.ts'

/** Screws of a sheet on each bearer: every other rib. Common practice. */
const SCREWS = 4

/** The frame as solids, pieces to buy, and mass. Null: the box has no rails to carry it. */
export function planOfFrame(body: BoxBody, frame: SnowFrame): SnowFramePlan | null {
  const rails = railsOf(body)
  if (rails === null) return null
  const [bearer, deck, seat] = [bearerOf(frame.section), deckOf(frame.deck), bearerOf(SEAT)]
  const [lengthMm, widthMm, heightMm] = body.outsideMm
  const levels = levelsOf(rails, frame, deck.depthMm)
  const { spacingMm } = spacesOf(body, frame)
  const count = frame.bearersAtMm.length
  const sheets = Math.ceil(widthMm / deck.widthMm - 1e-9)
  const kg = (count * bearer.kgPerM * widthMm) / 1000 + (deck.kgPerM2 * lengthMm * widthMm) / 1e6
  const spread = amount('frame-spread')
  const half = amount('frame-seat-long') / 2
  return {
    frame,
    spanMm: rails.acrossMm[1] - rails.acrossMm[0],
    spacingMm,
    bearers: frame.bearersAtMm.map((x, i) => ({
      id: `bearer ${i + 1}`,
      fromMm: [x - bearer.bMm / 2, 0, levels.seatsMm],
      toMm: [x + bearer.bMm / 2, widthMm, levels.bearersMm],
    })),
    seats: frame.bearersAtMm.flatMap((x, i) =>
      rails.acrossMm.map((y, k) => ({
        id: `seat ${i + 1} ${k === 0 ? 'left' : 'right'}`,
        fromMm: [x - half, y - seat.bMm / 2, rails.topMm] as const,
        toMm: [x + half, y + seat.bMm / 2, levels.seatsMm] as const,
      })),
    ),
    deck: { id: 'deck', fromMm: [0, 0, levels.bearersMm], toMm: [lengthMm, widthMm, levels.deckMm] },
    seatSection: SEAT,
    deckSheets: { count: sheets, lengthMm, widthMm: deck.widthMm },
    boltsCount: BOLTS * count,
    screwsCount: SCREWS * sheets * count,
    massKg: { low: kg * (1 - spread), high: kg * (1 + spread), basis: 'sections and deck, 5 % either way', told: false },
    seatsOverMm: Math.max(0, levels.seatsMm - heightMm),
    overMm: Math.max(0, levels.deckMm - heightMm),
  }
}

/** What of it travels on the box. */
export function seatsItem(plan: SnowFramePlan): MassItem {
  const kg = (plan.seats.length * bearerOf(plan.seatSection).kgPerM * amount('frame-seat-long')) / 1000
  const ends = plan.seats.flatMap((s) => [s.fromMm, s.toMm])
  const middle = (axis: 0 | 1 | 2): number => (Math.min(...ends.map((p) => p[axis])) + Math.max(...ends.map((p) => p[axis]))) / 2
  const spread = amount('frame-spread')
  return {
    id: 'snow frame seats',
    what: `${plan.seats.length} seats of the snow frame`,
    massKg: { low: kg * (1 - spread), high: kg * (1 + spread), basis: 'section', told: false },
    atMm: [middle(0), middle(1), middle(2)],
    bandXMm: 0,
  }
}
