import type { HaulBox } from '@plugstead/engine/haul'
import { formatQuantity } from '@plugstead/engine/kernel'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, rect, round, stroke, upward, verdictAt, words } from '../model/make.ts'
import { planView } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { kilonewtons } from './lifting.ts'

/** What it stands on, from above: pads under the box, anchors, the diagonals that prove it square. */
export function padsDrawing(of: DrawnBox, haul: HaulBox): Drawing {
  const look = planView(of.body.outsideMm)
  const [L, W] = of.body.outsideMm
  const pads = haul.pads.rectanglesMm.map((pad) => {
    const [x, y] = look.at(pad.atMm)
    return { low: [x, y] as Point, high: [x + pad.lengthMm, y + pad.widthMm] as Point }
  })
  const middles = pads.map(({ low, high }): Point => [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2])
  const xs = middles.map((m) => m[0])
  const ys = middles.map((m) => m[1])
  const [a, c]: readonly [Point, Point] = [
    [Math.min(...xs), Math.min(...ys)],
    [Math.max(...xs), Math.max(...ys)],
  ]
  const lowest = Math.min(0, ...pads.map((p) => p.low[1]))
  const left = Math.min(0, ...pads.map((p) => p.low[0]))
  const diagonal = Math.hypot(c[0] - a[0], c[1] - a[1])
  return {
    id: 'pads',
    title: 'Pads and anchors',
    said: `${pads.length} pads ${haul.design.pads.lengthMm} by ${haul.design.pads.widthMm} mm under ${of.build.box}${haul.anchors === null ? '' : `, ${haul.anchors.count} anchors`}, from above; both diagonals ${Math.round(diagonal)} mm.`,
    toScale: true,
    items: [
      ...pads.map(({ low, high }) => rect('lift', low, high, 'opening', 'slant wide')),
      rect('frame', [0, 0], [L, W], 'behind'),
      stroke('lift', [a, c], 'fold'),
      stroke(
        'lift',
        [
          [a[0], c[1]],
          [c[0], a[1]],
        ],
        'fold',
      ),
      ...(haul.anchors?.atMm ?? []).map((at) => round('lift', look.at(at), 70, 'cut', 'blank')),
      across(a, [c[0], a[1]], lowest, 7),
      upward(a, [a[0], c[1]], left, -7),
      words([(a[0] + c[0]) / 2, (a[1] + c[1]) / 2], `both diagonals ${Math.round(diagonal)}`, {
        anchor: 'middle',
        halo: true,
        byMm: [0, 1],
      }),
      words([0, W / 2], 'blind end', { anchor: 'middle', turnDeg: -90, byMm: [4, 0], halo: true }),
      ...saidBelow(haul, [left, lowest]),
    ],
  }
}

function saidBelow(haul: HaulBox, at: Point): readonly Drawn[] {
  const { pads, anchors, design } = haul
  const over = pads.limitPa !== null && pads.pressurePa > pads.limitPa
  const lines = [
    `pads ${design.pads.lengthMm} × ${design.pads.widthMm}: ${design.pads.what}`,
    `${over ? 'fails: ' : ''}worst pad ${kilonewtons(pads.worstN)}, ${pressure(pads.pressurePa)} on the ground${pads.limitPa === null ? '; nobody has said what the ground bears' : `, which bears ${pressure(pads.limitPa)}`}`,
    pads.packingMm === null
      ? 'nobody has said how level the ground is: level it before the box comes'
      : `packing under the low end ${Math.ceil(pads.packingMm)} mm by the slope told`,
    ...(anchors === null || design.anchors === null
      ? []
      : [`rings: ${anchors.count} anchors, ${design.anchors.what}, ${kilonewtons(anchors.eachN)} each`]),
  ]
  const said = lines.map((line, i) => words(at, line, { byMm: [0, 15 + 3.6 * i] }))
  return over ? [...said, verdictAt(at, 'fails', [-2.4, 15 + 3.6 - 0.9])] : said
}

const pressure = (pressurePa: number): string => formatQuantity(Math.round(pressurePa / 100) / 10, 'kPa')
