import type { SnowFrame } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { amount } from '../shelf.ts'
import { roofSnowPa } from '../snow-on-roof.ts'
import { type Bearer, bearers, type Deck, decks, SEAT } from './parts.ts'
import { bearersAt, railsOf, seatMm } from './place.ts'
import { type FrameTask, frameWork } from './work.ts'

/**
 * The frame that costs least among all of these tubes, decks and numbers of bearers that hold the most snow the place may have. Every one
 * is weighed, so none is cheaper. By the shop's prices where it has one for each, else by mass. Null: no snow told, no rails, or none holds.
 */
export function leastFrame(task: FrameTask, prices: Prices | null): SnowFrame | null {
  const ground = task.yard.snow.groundLoadPa
  const rails = railsOf(task.body)
  if (ground === null || rails === null) return null
  const snowPa = roofSnowPa(ground, task.by).high
  const [tubes, sheets] = [bearers().filter((one) => one.bMm >= amount('frame-bearer-least')), decks()]
  const cost = costBy(task, prices, bearers(), sheets)
  const longest = rails.toMm - rails.fromMm - 2 * amount('frame-seat-long')
  const most = Math.floor(longest / amount('frame-step-least')) + 1
  let best: { readonly frame: SnowFrame; readonly cost: number } | null = null
  let triedCount = 0
  for (const tube of tubes)
    for (const deck of sheets)
      for (let count = 2; count <= most; count++) {
        triedCount++
        const frame = {
          section: tube.section,
          bearersAtMm: bearersAt(rails, count),
          seatMm: seatMm(),
          deck: deck.deck,
          triedCount: 0,
        }
        const asked = cost(tube, deck, count)
        if (best !== null && asked >= best.cost - 1e-9) continue
        const work = frameWork(task, frame, snowPa)
        if (work !== null && work.verdict !== 'fails') best = { frame, cost: asked }
      }
  return best === null ? null : { ...best.frame, triedCount }
}

type Cost = (tube: Bearer, deck: Deck, count: number) => number

function costBy(task: FrameTask, prices: Prices | null, tubes: readonly Bearer[], sheets: readonly Deck[]): Cost {
  const [lengthM, widthM] = [task.body.outsideMm[0] / 1000, task.body.outsideMm[1] / 1000]
  const seatM = (2 * amount('frame-seat-long')) / 1000
  const money = (id: string, per: string): number | null => {
    const row = prices !== null && Object.hasOwn(prices.rows, id) ? prices.rows[id] : undefined
    return row?.per === per ? row.money : null
  }
  const perTube = new Map(tubes.map((t) => [t.section, money(`frame/${t.section}`, 'm')]))
  const perDeck = new Map(sheets.map((d) => [d.deck, money(`deck/${d.deck}`, 'm2')]))
  const bolt = money('bolt/M12', 'each')
  const whole = (d: Deck): number => (Math.ceil((widthM * 1000) / d.widthMm - 1e-9) * d.widthMm * lengthM) / 1000
  const priced = bolt !== null && [...perTube.values(), ...perDeck.values()].every((one) => one !== null)
  if (!priced) {
    const seat = tubes.find((t) => t.section === SEAT)!
    return (tube, deck, count) => count * (tube.kgPerM * widthM + seat.kgPerM * seatM) + deck.kgPerM2 * whole(deck)
  }
  return (tube, deck, count) =>
    count * ((perTube.get(tube.section) ?? 0) * widthM + (perTube.get(SEAT) ?? 0) * seatM + BOLTS * bolt) +
    (perDeck.get(deck.deck) ?? 0) * whole(deck)
}

/** Two bolts in each of a bearer's two seats. */
export const BOLTS = 4
