import type { SnowFramePlan } from '../haul/result.ts'
import type { BillLine, BuildStep } from './result.ts'

/** A length to saw, and what it is for. */
export interface SawnPiece {
  readonly opening: string
  readonly part: string
  readonly section: string
  readonly lengthMm: number
  readonly count: number
}

const NAME = 'snow frame'

/** Bearers and seats of a frame over the roof. */
export function framePieces(plan: SnowFramePlan | null): readonly SawnPiece[] {
  if (plan === null) return []
  const { bearers, seats, frame, seatSection } = plan
  const [bearer, seat] = [bearers[0], seats[0]]
  if (bearer === undefined || seat === undefined) return []
  return [
    { opening: NAME, part: 'bearer', section: frame.section, lengthMm: bearer.toMm[1] - bearer.fromMm[1], count: bearers.length },
    { opening: NAME, part: 'seat', section: seatSection, lengthMm: seat.toMm[0] - seat.fromMm[0], count: seats.length },
  ]
}

type Need = Omit<BillLine, 'unitMoney' | 'money' | 'date' | 'source'>

/** Deck by whole sheets, bolts and screws. */
export function frameNeeds(plan: SnowFramePlan | null): readonly Need[] {
  if (plan === null) return []
  const { deckSheets: s, frame } = plan
  const line = (id: string, what: string, quantity: number, per: Need['per'], from: string): Need => ({
    ...{ sheet: 'steel', id, what, quantity, per, from },
    needs: [NAME],
  })
  return [
    line(
      `deck/${frame.deck}`,
      `steel deck ${frame.deck}`,
      (s.count * s.lengthMm * s.widthMm) / 1e6,
      'm2',
      `${s.count} sheets of ${s.lengthMm} × ${s.widthMm} mm`,
    ),
    line('bolt/M12', 'bolt M12 with nut and washers, galvanised', plan.boltsCount, 'each', 'two in each seat'),
    line('screw/deck', 'self-drilling deck screw with seal', plan.screwsCount, 'each', 'every other rib on each bearer'),
  ]
}

type Plain = Omit<BuildStep, 'hours'>

const EDGE =
  'The roof has an edge and is not a platform: scaffold or lift with a rail on both sides, tied off, nobody below; not in wind, on ice or in snow.'

/** What a frame adds to the order of building; null: no frame. */
export function frameSteps(plan: SnowFramePlan | null): { readonly seats: readonly Plain[]; readonly trial: readonly Plain[] } {
  if (plan === null) return { seats: [], trial: [] }
  const { frame, seats, bearers } = plan
  return {
    seats: [
      {
        id: '3b',
        who: "the shop's welder",
        words: `Weld ${seats.length} seats of ${plan.seatSection}, ${frame.seatMm} mm high, to the top face of the top side rails where the sheet of the snow frame shows them: each notched over the edge of the roof sheet, 3 mm fillet at the outer edge and both ends. No weld and no hole in the sheet. Drill seats and bearers together for M12, prime every hole.`,
        caution: `${EDGE} Strip the coating first, ventilate, fire watch inside under the rail.`,
        hold: { what: 'Seats gauged and marked on the weld map', signs: "the shop's welding supervisor" },
      },
    ],
    trial: [
      {
        id: '13b',
        who: "the shop's helper",
        words: `Set the ${bearers.length} bearers once, bolt them, lay ${plan.deckSheets.count} sheets of deck ${frame.deck} and check that each bearer clears the roof sheet; mark every piece with its seat, take it off and strap it as a load of its own.`,
        caution: `${EDGE} Two people or a hoist to each piece. On site the frame goes on before snow and comes off before the box is lifted from its top fittings.`,
        hold: null,
      },
    ],
  }
}
