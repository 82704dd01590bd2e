import type { SnowFramePlan } from '@plugstead/engine/haul'
import { formatQuantity } from '@plugstead/engine/kernel'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, millimetres, rect, shape, stroke, upward, words } from '../model/make.ts'
import { covers, planView, sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'

/** Between the plan and the view from the side: the distances of the bearers are written there. */
const GAP_MM = 2400

/** The frame over the roof: from above with the deck off, and from the side on the box. */
export function snowFrameDrawing(of: DrawnBox, plan: SnowFramePlan): Drawing {
  const { outsideMm } = of.body
  const [L, W, H] = outsideMm
  const side = sideView('left', 'outside', outsideMm)
  const below = (p: Point): Point => [p[0], p[1] - GAP_MM - H]
  const seen = (
    one: { readonly fromMm: SnowFramePlan['deck']['fromMm']; readonly toMm: SnowFramePlan['deck']['toMm'] },
    view: View,
  ) => covers(view, one.fromMm, one.toMm)
  const above = planView(outsideMm)
  const elevation = [...plan.seats.filter((s) => s.id.endsWith('left')), ...plan.bearers, plan.deck].map((one) => {
    const { low, high } = seen(one, side)
    return rect(
      'frame',
      below(low),
      below(high),
      one === plan.deck ? 'opening' : 'symbol',
      one === plan.deck ? 'slant close' : 'blank',
    )
  })
  return {
    id: 'snow-frame',
    title: 'Snow frame over the roof',
    said: `Frame over the roof of ${of.build.box}: ${plan.bearers.length} bearers of ${plan.frame.section}, ${millimetres(plan.spacingMm)} mm apart, on ${plan.seats.length} seats on the top side rails; deck ${plan.frame.deck}. From above without the deck, and from the left side.`,
    toScale: true,
    items: [
      rect('frame', [0, 0], [L, W], 'behind'),
      ...of.body.members
        .filter((m) => m.kind === 'top rail')
        .map((m) => {
          const { low, high } = covers(above, m.fromMm, m.toMm)
          return rect('frame', low, high, 'ampere 1')
        }),
      ...plan.bearers.map((b) => {
        const { low, high } = seen(b, above)
        return rect('frame', low, high, 'symbol', 'blank')
      }),
      ...plan.seats.map((s) => {
        const { low, high } = seen(s, above)
        return rect('frame', low, high, 'symbol', 'solid')
      }),
      {
        kind: 'ladder',
        way: 'across',
        rungs: [0, ...plan.frame.bearersAtMm, L].map((x) => ({ atMm: [x, 0] as Point, words: millimetres(x) })),
        baseMm: 0,
        offMm: 7,
      },
      upward([0, 0], [0, W], 0, -7),
      words([0, W / 2], 'blind end', { anchor: 'middle', turnDeg: -90, byMm: [4, 0], halo: true }),
      words([L, W], 'from above, deck off; distances from the blind end to the middle of each bearer', {
        anchor: 'end',
        byMm: [0, -1.5],
      }),
      rect('frame', below([0, 0]), below([L, H]), 'cut'),
      ...elevation,
      upward(below([L, H]), below([L, H + plan.overMm]), L, 7),
      ...saidUnder(plan, below([0, 0])),
    ],
  }
}

function saidUnder(plan: SnowFramePlan, at: Point): readonly Drawn[] {
  const { frame, deckSheets } = plan
  const lines = [
    `${plan.bearers.length} bearers ${frame.section}; ${plan.seats.length} seats ${plan.seatSection}, ${millimetres(frame.seatMm)} high; ${plan.boltsCount} bolts M12`,
    `deck ${frame.deck}: ${deckSheets.count} sheets ${millimetres(deckSheets.lengthMm)} × ${millimetres(deckSheets.widthMm)}, ribs along the box, the last sheet trimmed; ${plan.screwsCount} screws`,
    `${Math.round(plan.massKg.low)} to ${formatQuantity(Math.round(plan.massKg.high), 'kg')}, taken off to travel; its seats stay`,
    'Roof edge: work from a scaffold or a lift with a rail, tied off; nobody below, no ice, no wind, no snow.',
  ]
  return lines.map((line, i) => words(at, line, { byMm: [0, 5 + 3.6 * i], strong: i === lines.length - 1 }))
}

/** One seat in section across the box, at the left rail. */
export function snowSeatDrawing(of: DrawnBox, plan: SnowFramePlan): Drawing {
  const look = sideView('door end', 'outside', of.body.outsideMm)
  const [seat, bearer] = [plan.seats[0]!, plan.bearers[0]!]
  const rail = of.body.members.find((m) => m.kind === 'top rail' && m.fromMm[1] === 0)
  const sheet = of.body.sides.roof.corrugation
  const [low, high] = [look.at([0, 0, seat.fromMm[2] - 75]), look.at([0, CUT_MM, plan.deck.toMm[2]])]
  const right = Math.max(low[0], high[0])
  const left = Math.min(low[0], high[0])
  const piece = (
    from: readonly [number, number],
    to: readonly [number, number],
    line: 'opening' | 'symbol',
    hatch?: 'slant close',
  ): Drawn => {
    const [a, b] = [look.at([0, from[0], from[1]]), look.at([0, to[0], to[1]])]
    return rect('frame', a, b, line, hatch)
  }
  const at = (y: number, z: number): Point => look.at([0, y, z])
  const top = rail?.toMm[2] ?? seat.fromMm[2]
  const crest = top + (sheet?.depthMm ?? 0) + (sheet?.thicknessMm ?? 0)
  const lap = (rail?.toMm[1] ?? 60) - LAP_MM
  return {
    id: 'snow-frame-seat',
    title: 'Seat of the snow frame',
    said: `A seat of ${plan.seatSection} on the top face of the top side rail, notched over the edge of the roof sheet; bearer bolted to it, deck on it. Section at the left rail, seen from the door end.`,
    toScale: true,
    items: [
      ...(rail === undefined
        ? []
        : [piece([rail.fromMm[1], rail.fromMm[2]], [rail.toMm[1], rail.toMm[2]], 'opening', 'slant close')]),
      piece([seat.fromMm[1], seat.fromMm[2]], [seat.toMm[1], seat.toMm[2]], 'opening'),
      piece([0, bearer.fromMm[2]], [CUT_MM, bearer.toMm[2]], 'opening'),
      piece([0, plan.deck.fromMm[2]], [CUT_MM, plan.deck.toMm[2]], 'symbol', 'slant close'),
      shape(
        'frame',
        [at(lap, top), at(lap, top + 2), at(lap + 40, crest), at(CUT_MM, crest), at(CUT_MM, crest - 2), at(lap + 40, crest - 2)],
        'symbol',
        'solid',
      ),
      stroke('frame', [at(30, seat.toMm[2] - 25), at(30, bearer.fromMm[2] + 30)], 'fold'),
      upward([right, at(0, seat.fromMm[2])[1]], [right, at(0, seat.toMm[2])[1]], right, 8),
      upward([right, at(0, bearer.fromMm[2])[1]], [right, at(0, bearer.toMm[2])[1]], right, 8),
      upward([left, at(0, crest)[1]], [left, at(0, bearer.fromMm[2])[1]], left, -8),
      across([at(0, 0)[0], low[1]], [at(60, 0)[0], low[1]], low[1], 6),
      ...[
        ['deck', (plan.deck.fromMm[2] + plan.deck.toMm[2]) / 2],
        [`bearer ${plan.frame.section}`, (bearer.fromMm[2] + bearer.toMm[2]) / 2],
        ['roof sheet', crest - 18],
      ].map(([said, z]) => words(at(CUT_MM / 2, Number(z)), String(said), { anchor: 'middle', halo: true })),
      words(at(70, top - 40), 'top side rail', { halo: true }),
      words(at(70, seat.fromMm[2] + 52), `seat ${plan.seatSection}`, { halo: true }),
      words([left, low[1]], 'fillet 3 mm at the outer edge and both ends; no weld and no hole in the roof sheet', {
        byMm: [0, 15],
      }),
      words(
        [left, low[1]],
        'two bolts M12 along the rail through bearer and seat; left: air between roof sheet and bearer without snow',
        {
          byMm: [0, 18.6],
        },
      ),
    ],
  }
}

/** How much of the box is drawn at a seat. */
const CUT_MM = 320
/** The roof sheet laps the rail by about a third of it. Common practice. */
const LAP_MM = 20

/** The frame as it lies over the roof, for a view of the roof from inside. */
export const frameBehind = (plan: SnowFramePlan, look: View): readonly Drawn[] =>
  plan.bearers.map((b) => {
    const { low, high } = covers(look, b.fromMm, b.toMm)
    return rect('frame', low, high, 'behind')
  })
