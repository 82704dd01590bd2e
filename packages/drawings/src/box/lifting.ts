import type { HaulBox, MassCentre } from '@plugstead/engine/haul'
import type { PointMm } from '@plugstead/engine/job'
import { formatQuantity } from '@plugstead/engine/kernel'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, placed, rect, round, shape, stroke, tag, upward, words } from '../model/make.ts'
import { covers, sideView, type View } from '../model/view.ts'
import { area, circle, type Item, type Point } from '../scene.ts'
import { type DrawnBox, limitsWords } from './drawn-box.ts'

/** Between the view from the side and the view of the end. */
const GAP_MM = 2200
/** Nobody but that person says that it may be lifted. */
const DECIDES = 'the appointed lifting person'

interface Looked {
  readonly look: View
  readonly at: (point: Point) => Point
}

/** How it is lifted or dragged: side and end, its middle with the band in which it may lie, slings, hook or bed. */
export function liftingDrawing(of: DrawnBox, haul: HaulBox): Drawing {
  const { outsideMm } = of.body
  const side: Looked = { look: sideView('left', 'outside', outsideMm), at: (p) => p }
  const end: Looked = { look: sideView('door end', 'outside', outsideMm), at: ([x, y]) => [x + outsideMm[0] + GAP_MM, y] }
  const centre = haul.centres[haul.centres.length - 1]!
  const { lift } = haul.design
  return {
    id: 'lifting',
    title: `Lifting: ${lift}`,
    said: `${of.build.box} ${centre.state}, ${massWords(centre)}, lifted by ${lift}: from the side and from the door end, with its middle and the band in which that may lie. ${limitsWords(of, DECIDES)}`,
    toScale: true,
    items: [
      ...[side, end].flatMap(({ look, at }) =>
        placed([...bodyOf(of, look), ...middleOf(centre, look), ...slingsOf(haul, look), ...forksOf(of, haul, look)], at),
      ),
      ...distances(of, haul, centre, side),
      ...bedOf(of, haul, centre),
      ...said(of, haul, centre),
    ],
  }
}

export const massWords = ({ massKg }: MassCentre): string =>
  `${Math.round(massKg.low)} … ${formatQuantity(Math.round(massKg.high), 'kg')}`

/** Outline, posts, rails and fittings. */
export function bodyOf({ body }: DrawnBox, look: View): readonly Drawn[] {
  const all = covers(look, [0, 0, 0], body.outsideMm)
  const near = body.members.filter((m) => m.kind === 'corner fitting' || m.kind === 'fork pocket')
  const shown = near.filter((m) => m.kind === 'corner fitting' || look.eye.axis === 1)
  return [
    rect('frame', all.low, all.high, 'cut'),
    ...shown.map((m) => {
      const { low, high } = covers(look, m.fromMm, m.toMm)
      return rect('frame', low, high, 'symbol')
    }),
  ]
}

/** Quartered round at the middle, hatched band about it. */
export function middleOf(centre: MassCentre, look: View): readonly Drawn[] {
  const { low, high } = covers(look, centre.lowMm, centre.highMm)
  return [rect('lift', low, high, 'behind', 'slant close'), massMark(look.at(centre.centreMm))]
}

const MARK_MM = 1.7

/** Centre of mass: a round of four quarters, two of them black; of one size at every scale. */
function massMark(atMm: Point): Drawn {
  const quarter = (fromDeg: number): Item =>
    area(
      [
        [0, 0],
        ...Array.from({ length: 9 }, (_, i): Point => {
          const turn = ((fromDeg + (90 / 8) * i) * Math.PI) / 180
          return [MARK_MM * Math.cos(turn), MARK_MM * Math.sin(turn)]
        }),
      ],
      'solid',
    )
  const items: readonly Item[] = [circle([0, 0], MARK_MM, 'symbol', 'blank'), quarter(0), quarter(180)]
  return { kind: 'note', layer: 'lift', atMm, items }
}

function slingsOf({ slings }: HaulBox, look: View): readonly Drawn[] {
  if (slings === null) return []
  const line = (a: PointMm, b: PointMm, heavy: boolean): Drawn =>
    stroke('lift', [look.at(a), look.at(b)], heavy ? 'section' : 'opening')
  const spreader = slings.spreaderMm
  return [
    ...slings.legs.map((leg) => line(leg.fromMm, leg.toMm, false)),
    ...(spreader === null ? [] : [line(spreader[0], spreader[1], true), ...spreader.map((p) => line(p, slings.hookMm, false))]),
    round('lift', look.at(slings.hookMm), 70, 'cut', 'blank'),
  ]
}

/** Forks in their pockets. */
function forksOf({ body }: DrawnBox, haul: HaulBox, look: View): readonly Drawn[] {
  if (haul.forks === null) return []
  return body.members
    .filter((m) => m.kind === 'fork pocket')
    .map((m) => {
      const { low, high } = covers(look, m.fromMm, m.toMm)
      return rect('lift', [low[0], low[1] + 10], [high[0], high[1] - 10], 'opening', 'slant close')
    })
}

function distances({ body }: DrawnBox, haul: HaulBox, centre: MassCentre, { look }: Looked): readonly Drawn[] {
  const [x, y] = look.at(centre.centreMm)
  const [L, W] = body.outsideMm
  const fromEnd = L + GAP_MM
  const drawn: Drawn[] = [
    across([0, 0], [x, 0], 0, 7),
    across([0, 0], [L, 0], 0, 13),
    upward([0, 0], [0, y], 0, -7),
    across([fromEnd, 0], [fromEnd + centre.centreMm[1], 0], 0, 7),
    across([fromEnd, 0], [fromEnd + W, 0], 0, 13),
  ]
  if (haul.slings !== null) {
    const [hx, hy] = look.at(haul.slings.hookMm)
    drawn.push(
      upward([0, 0], [hx, hy], 0, -13),
      tag([hx - 70, hy - 70], [hx + 70, hy + 70], `hook, legs at ${haul.slings.angleDeg}° to the ground or steeper`, {
        inside: 'things',
      }),
    )
  }
  return drawn
}

/** On a bed that tilts: the box drawn again as it lies when it slides. */
function bedOf({ body }: DrawnBox, haul: HaulBox, centre: MassCentre): readonly Drawn[] {
  if (haul.tilt === null) return []
  const turn = (haul.tilt.bedDeg * Math.PI) / 180
  const [L, , H] = body.outsideMm
  const foot: Point = [0, -H - 2400]
  const at = ([x, y]: Point): Point => [
    foot[0] + x * Math.cos(turn) - y * Math.sin(turn),
    foot[1] + x * Math.sin(turn) + y * Math.cos(turn),
  ]
  const corners: readonly Point[] = [
    [0, 0],
    [L, 0],
    [L, H],
    [0, H],
  ]
  const ground = foot[1]
  return [
    stroke(
      'lift',
      [
        [foot[0] - 800, ground],
        [foot[0] + L + 600, ground],
      ],
      'section',
    ),
    stroke('lift', [at([-300, 0]), at([L + 500, 0])], 'opening'),
    shape('frame', corners.map(at), 'cut', 'blank'),
    massMark(at([centre.centreMm[0], centre.centreMm[2]])),
    words(at([L + 500, 0]), `pull ${kilonewtons(haul.tilt.winchN)}`, { byMm: [1.5, 0] }),
    words(at([L / 2, 0]), `bed at ${haul.tilt.bedDeg}°`, { byMm: [3, 6] }),
  ]
}

export const kilonewtons = (forceN: number): string => formatQuantity(Math.round(forceN / 100) / 10, 'kN')

function said(of: DrawnBox, haul: HaulBox, centre: MassCentre): readonly Drawn[] {
  const { body } = of
  const { slings, forks, tilt } = haul
  const lines = [
    `${centre.state}: ${massWords(centre)}; hatched: where its middle may lie`,
    ...(slings === null
      ? []
      : [
          `each leg and shackle ${formatQuantity(Math.ceil(slings.legWllKg), 'kg')} working load at least, for one diagonal pair may carry all`,
          ...(slings.spreaderMm === null ? [] : ['a spreader holds the legs clear of the box']),
        ]),
    ...(forks === null
      ? []
      : [`truck rated ${formatQuantity(Math.ceil(forks.ratedKg), 'kg')} at ${forks.ratedCentreM} m at least`]),
    ...(tilt === null
      ? []
      : [
          `straight run ${tilt.straightRunM.low} m; it slides by itself at ${Math.floor(tilt.slidesAtDeg)}°: chained before the bed rises`,
        ]),
    limitsWords(of, DECIDES),
  ]
  const low = haul.tilt === null ? 0 : -body.outsideMm[2] - 2400
  const from = haul.tilt === null ? 18 : 6
  return lines.map((line, i) => words([0, low], line, { byMm: [0, from + 3.6 * i], strong: i === lines.length - 1 }))
}
